import { BAD_INPUT, stop } from '@tubgap/casefile/command-line';
import { type InterviewedCase, type ReadCall, readCall } from '@tubgap/interview';
import { stopCode } from '@tubgap/results';
import { printed, terminal } from '@tubgap/wording/terminal';
import { freeFolder, refuseStanding, tubsList, writeCase } from './case-folder.ts';
import { answersOf } from './given-answers.ts';
import { flagOf } from './question-options.ts';
import { nextLine, summary } from './summary.ts';
import type { GivenAnswer } from './verbs.ts';

interface AskOptions {
  /** Left out: named after the car. */
  folder: string | undefined;
  tubs: string | undefined;
  replace: boolean;
  /** False: nothing is asked. */
  questions: boolean;
  /** False: the case is written and no more. */
  answer: boolean;
}

/** Faults of options, a line each. */
const faultLines = ({ faults }: ReadCall): string[] =>
  Object.entries(faults).map(([id, words]) => `${flagOf(id)}: ${/[.?]$/.test(words) ? words : `${words}.`}`);

/** What no option told and nobody can be asked for. */
function missingLine({ missing: all, faults }: ReadCall): string[] {
  const missing = all.filter((id) => faults[id] === undefined);
  if (missing.length === 0) return [];
  const flags = [...new Set(missing.map(flagOf))];
  const second = missing.some((id) => /\[[1-9]/.test(id)) ? ', for every --tyre' : '';
  return [`Missing, and there is no one to ask: ${flags.join(', ')}${second}.`];
}

/** The case of answers by options, and at a terminal by questions. @throws Stop */
async function interview(
  given: readonly GivenAnswer[],
  talks: boolean,
): Promise<{ call: ReadCall; interviewed: InterviewedCase }> {
  let call = readCall(answersOf(given));
  if (talks && Object.keys(call.faults).length === 0) {
    const { askAtTerminal } = await import('./ask-at-terminal.ts');
    const answers = await askAtTerminal(call.answers);
    if (answers === undefined) return stop('Stopped. Nothing was written.', stopCode('SIGINT'));
    call = readCall(answers);
  }
  const { interviewed } = call;
  if (interviewed && Object.keys(call.faults).length === 0) return { call, interviewed };
  return stop([...faultLines(call), ...missingLine(call), 'Nothing was written.'].join('\n'), BAD_INPUT);
}

/** Makes a case of answers, writes it and says what was made of them. @returns the case file's path @throws Stop */
export async function runAsk(given: readonly GivenAnswer[], options: AskOptions): Promise<string> {
  const talks = options.questions && process.stdin.isTTY === true && process.stdout.isTTY === true;
  const tubs = tubsList(options.tubs);
  if (options.folder !== undefined && !options.replace) refuseStanding(options.folder);
  const { call, interviewed } = await interview(given, talks);
  const named = options.folder ?? String(interviewed.document.name);
  // Whoever has answered everything loses nothing to a folder of that name.
  const folder = talks && !options.replace && options.folder === undefined ? freeFolder(named) : named;
  if (!options.replace) refuseStanding(folder);
  const written = writeCase(folder, interviewed, tubs);
  process.stdout.write(printed(summary(written, interviewed, call.answers, options.tubs), terminal()));
  if (options.answer) {
    const { firstAnswer } = await import('./first-answer.ts');
    const waiting = process.stderr.isTTY === true;
    if (waiting) process.stderr.write('  Working out a first answer…');
    const told = await firstAnswer(call.answers, tubs.text);
    if (waiting) process.stderr.write('\r\x1b[K');
    process.stdout.write(printed(told, terminal()));
  }
  process.stdout.write(printed(nextLine(written), terminal()));
  return written.file;
}
