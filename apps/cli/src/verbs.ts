import { show } from '@tubgap/bench';
import { type Mount, openProgram } from '@tubgap/casefile/command-line';
import { ask } from '@tubgap/interviewer';
import { book, learn, plan } from '@tubgap/learner';
import {
  compare,
  draws,
  evaluate,
  judge,
  limits,
  merge,
  optimise,
  pick,
  place,
  queue,
  sweep,
  work,
} from '@tubgap/montecarlo';
import { report, revision, state, year } from '@tubgap/reporter';
import { reportPick, reportStudy } from './report-results.ts';

const PICKS = ['--json', 'print the picks as JSON; left out: in words'] as const;
const FOUND = ['--json', 'print all that was found as JSON in SI; left out: in words'] as const;

/** Picks from a case that was just written, where that was asked for, as if it had been asked for by itself. */
const pickAtOnce = async (file: string, { pick: wanted }: { pick?: true }) => {
  if (wanted)
    await openProgram('tubgap', '', [pick(reportPick)]).parseAsync(['pick', file], { from: 'user' });
};

/** Every verb, in the order in which the help lists them. Each says its own words and loads what it takes when it runs. */
export const VERBS: readonly Mount[] = [
  (program) =>
    ask(pickAtOnce)(program).option(
      '--pick',
      'pick from the case at once; left out: the command for it is told',
    ),
  (program) => pick(reportPick)(program).option(...PICKS),
  judge,
  limits,
  show,
  (program) => sweep(reportStudy)(program).option(...FOUND),
  (program) => merge(reportStudy)(program).option(...FOUND),
  work,
  queue,
  (program) => compare(reportStudy)(program).option(...FOUND),
  (program) => place(reportStudy)(program).option(...FOUND),
  (program) => optimise(reportStudy)(program).option(...FOUND),
  draws,
  evaluate,
  report,
  year,
  revision,
  learn,
  book,
  plan,
  state,
];
