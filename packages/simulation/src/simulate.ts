import type { Case } from '@tubgap/casefile';
import type { Centres } from './importance/mixture.ts';
import { heightsByRuns, pickHeights } from './pick.ts';
import { mostRounds, plannedRounds } from './planned-rounds.ts';
import { weightedBlocks } from './runner.ts';
import { type CaseSetup, caseSetup } from './setup.ts';
import type { StudySample } from './study/study-tasks.ts';
import {
  type Findings,
  findingRisks,
  floorTasks,
  gather,
  mixtureTasks,
  openingTasks,
  openWorkplace,
  performTask,
  roundTasks,
  type Task,
  type TaskResult,
  weightedTasks,
} from './tasks.ts';

/** Works out tasks, in any order and anywhere, and gives their results in the order of the tasks. */
export type Perform = (tasks: readonly Task[], done: (share: number) => void) => Promise<TaskResult[]>;

/** Works out every task here, one after another. */
export function performHere(source: Case): Perform {
  const place = openWorkplace(source);
  return async (tasks, done) =>
    tasks.map((task, i) => {
      const result = performTask(place, task);
      done((i + 1) / tasks.length);
      return result;
    });
}

/**
 * Simulates a case with as many plain runs as are planned for it, at least one round; with all that the case allows
 * where those leave it open whether a tub fits.
 * @param tell  told as the work goes on: part done, 0 to 1
 * @param asked  heights that will be asked about, in whichever tub, m: risks are told from where they begin to matter
 */
export async function simulateUntilSettled(
  source: Case,
  setup: CaseSetup,
  perform: Perform,
  tell: (done: number) => void,
  asked: readonly number[] = [],
): Promise<{ found: Findings; centres: Centres }> {
  const results = await perform(floorTasks(asked), () => {});
  const { floors } = gather(setup, results);
  results.push(...(await perform(openingTasks(source, floors), (share) => tell(0.3 * share))));
  const { centres } = gather(setup, results);
  const from = { centres, floors };
  let told = 0.3;
  const more = async (tasks: readonly Task[], until: number): Promise<Findings> => {
    const from = told;
    results.push(...(await perform(tasks, (share) => tell(from + (until - from) * share))));
    told = until;
    return gather(setup, results);
  };
  const first = await more([...weightedTasks(source, from), ...roundTasks(source, from, 0, 1)], 0.7);
  const planned = plannedRounds(source, setup, first);
  let found = await more(roundTasks(source, from, 1, planned), 0.9);
  const isOpen = pickHeights(source, setup, findingRisks(found), found.runs).some(
    ({ verdict }) => verdict === 'not known',
  );
  if (isOpen) found = await more(roundTasks(source, from, planned, mostRounds(source)), 1);
  return { found, centres };
}

/** The draws that setups are compared by, and what the base asks for by its run risk. */
export interface BaseSample extends StudySample {
  /** Lowest top height in each tub at which every tyre's run risk is within what is accepted, m; undefined: none. */
  heights: (number | undefined)[];
  /** All that the pick found; undefined where other runs were asked for, which are no pick. */
  found: Findings | undefined;
}

/**
 * The very draws that a case's pick is made of.
 * @param asked  plain runs to take in place of the pick's own number
 */
export async function pickSample(
  source: Case,
  perform: Perform,
  asked: boolean,
  tell: (done: number) => void = () => {},
): Promise<BaseSample> {
  const setup = caseSetup(source);
  const sampleOf = (found: Findings): Omit<BaseSample, 'found'> => ({
    draws: found.runs.all.events,
    weightedBlocks: weightedBlocks(source),
    centres: found.centres,
    heights: heightsByRuns(setup, findingRisks(found)),
  });
  if (!asked) {
    const { found } = await simulateUntilSettled(source, setup, perform, tell);
    return { ...sampleOf(found), found };
  }
  const { floors } = gather(setup, await perform(floorTasks(), () => {}));
  const opening = await perform([{ kind: 'centres', floors }], (share) => tell(0.3 * share));
  const { centres } = gather(setup, opening);
  const from = { centres, floors };
  const tasks = [
    ...mixtureTasks(from, weightedBlocks(source)),
    ...roundTasks(source, from, 0, mostRounds(source)),
  ];
  const results = await perform(tasks, (share) => tell(0.3 + 0.7 * share));
  return { ...sampleOf(gather(setup, [...opening, ...results])), found: undefined };
}
