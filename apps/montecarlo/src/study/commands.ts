import { join } from 'node:path';
import { type Command, InvalidArgumentError } from '@commander-js/extra-typings';
import type { Setting } from '@tubgap/casefile';
import {
  CASE_FILE,
  keepForStudies,
  mendResults,
  ResultsError,
  STUDY_FILE,
  type Study,
  studyText,
  writeResults,
} from '@tubgap/results';
import { BAD_INPUT, readCase, settingOption, stop, TOO_FEW, wholeNumber } from '../options.ts';
import { defaultWorkers } from '../pool.ts';
import { progressBar } from '../progress.ts';
import { runClasses } from './classes.ts';
import type { Effort } from './compare-setups.ts';
import { StudyFault } from './fault.ts';
import { runPlaces } from './places.ts';
import { runSetups } from './setups.ts';
import { studyGuide } from './study-guide.ts';
import { runSweep } from './sweep.ts';
import { type Mode, readMode, readSweepFile, sweepFileText } from './sweep-file.ts';
import { readVary, type Vary } from './vary.ts';

/** Plain runs of every setup, and as many weighted ones, when nothing else is said. */
const STUDY_DRAWS = 16_384;

interface Shared {
  results: string;
  draws?: number | undefined;
  seed?: number | undefined;
  workers?: number | undefined;
}

/** Runs a study of a case, writes its folder and prints where that is. */
async function study(
  file: string,
  ending: string,
  options: Shared,
  set: readonly Setting[],
  work: (
    case_: ReturnType<typeof readCase>,
    effort: Effort,
  ) => Promise<{ found: Study; files?: Record<string, string> }>,
): Promise<void> {
  const bar = progressBar();
  try {
    const read = readCase(file, set);
    const { source, text } = read;
    if (options.seed !== undefined) source.simulation.seed = options.seed;
    const name = `${source.name}-${ending}`;
    keepForStudies(join(options.results, name));
    mendResults(options.results, name);
    const { found, files = {} } = await work(read, {
      draws: options.draws ?? STUDY_DRAWS,
      workers: options.workers ?? defaultWorkers(),
      tell: (done) => bar.tell('simulating', done),
      expect: (seconds) => {
        if (seconds >= 3) process.stderr.write(`About ${durationText(seconds)}.\n`);
      },
    });
    bar.stop();
    const place = writeResults(options.results, name, {
      [STUDY_FILE]: studyText(found),
      [CASE_FILE]: text,
      'READ-ME.txt': studyGuide(found),
      ...files,
    });
    process.stdout.write(`${place}\n`);
    if (isTooFew(found)) process.exitCode = TOO_FEW;
  } catch (error) {
    bar.stop();
    if (error instanceof StudyFault) stop([...error.lines, 'Nothing was run.'].join('\n'), BAD_INPUT);
    if (error instanceof ResultsError) stop(error.message, BAD_INPUT);
    if (error instanceof RangeError) stop(`${file}: ${error.message}`, BAD_INPUT);
    stop(
      `${file}: this program failed (${String(error).slice(0, 300)}). No results were changed; please report it.`,
      1,
    );
  }
}

/** Whether no tub has a height that the runs support, although there is one to be found. */
function isTooFew(found: Study): boolean {
  if (found.kind === 'classes')
    return found.picks.every(({ topHeight, reason }) => topHeight === null && reason.startsWith('too few'));
  const cells =
    found.kind === 'sweep'
      ? found.points[0]!.figures.at(-1)!
      : found.kind === 'setups'
        ? found.setups[0]!.figures.at(-1)!
        : found.places.flatMap(({ best }) => best?.cells.at(-1) ?? []);
  return (
    cells.every(({ topHeight }) => topHeight === null) && cells.some(({ evenHeight }) => evenHeight !== null)
  );
}

const durationText = (seconds: number): string =>
  seconds < 90 ? `${Math.ceil(seconds / 5) * 5} seconds` : `${Math.ceil(seconds / 60)} minutes`;

function modeOption(word: string): Mode {
  const mode = readMode(word);
  if (mode !== undefined) return mode;
  throw new InvalidArgumentError(`read "${word}"; allowed are grid and one-at-a-time.`);
}

const repeated = (words: string, before: string[] = []): string[] => [...before, words];

/** What a sweep is to vary, from its file and from the command line. */
function variesOf(
  file: string | undefined,
  words: readonly string[],
): { mode: Mode | undefined; varies: Vary[] } {
  const fromFile = file === undefined ? { mode: undefined, varies: [] } : readSweepFile(file);
  const varies = [...fromFile.varies, ...words.map((one) => readVary(one))];
  if (varies.length > 0) return { mode: fromFile.mode, varies };
  throw new StudyFault([
    'Nothing to vary was named. Write for example --vary "run.trapSpeed = 200 mph to 240 mph by 10 mph", or --file with a sweep file.',
  ]);
}

/** Adds what every study knows: where to write, how much to simulate. */
const shared = <Arguments extends unknown[]>(command: Command<Arguments>) =>
  command
    .option('--results <folder>', 'folder that holds the results folders', 'results')
    .option(
      '--draws <number>',
      'simulated runs of every setup, and as many moved to where touches are rare',
      wholeNumber(2048, 10_000_000),
    )
    .option('--seed <number>', 'seed of the random numbers', wholeNumber(0, Number.MAX_SAFE_INTEGER))
    .option('--workers <number>', 'worker threads; the answer does not depend on them', wholeNumber(1, 256));

const SET_WORDS = 'value in place of the file’s, such as "run.trapSpeed=~230 mph"; may be repeated';

/** Adds the commands that run a case more than once. */
export function addStudyCommands(program: Command): void {
  shared(program.command('sweep').argument('<case>', 'case file (YAML)'))
    .description('run a case over values of its inputs')
    .option('--vary <path=values>', 'what to vary; may be repeated', repeated)
    .option('--file <sweep>', 'sweep file (YAML)')
    .option('--mode <grid|one-at-a-time>', 'every combination, or one input at a time', modeOption)
    .option('--set <path=value>', SET_WORDS, settingOption)
    .action((file, options) =>
      study(file, 'sweep', options, options.set ?? [], async ({ source, text }, effort) => {
        const { mode: written, varies } = variesOf(options.file, options.vary ?? []);
        const mode = options.mode ?? written ?? 'grid';
        const set = options.set ?? [];
        const found = await runSweep({ file, text, source, set, varies, mode }, effort);
        return { found, files: { 'sweep.yaml': sweepFileText(mode, varies) } };
      }),
    );
  shared(program.command('compare').argument('<case>', 'case file (YAML)'))
    .description('which tyre fits which tub; or, with another setup, two setups side by side')
    .option('--against <case>', 'case file of the other setup')
    .option('--set <path=value>', `of the other setup: ${SET_WORDS}`, settingOption)
    .option('--ends <path=low,high>', 'both ends of one input, each a setup; may be repeated', repeated)
    .option('--cars <number>', 'simulated cars for the season, of the classes', wholeNumber(1, 1_000_000))
    .option(
      '--wheelbase <shortest,longest>',
      'both ends of the wheelbase adjustment, the tub staying on the body',
    )
    .action((file, options) =>
      study(file, 'compare', options, [], async ({ source, text }, effort) => {
        const { against, set = [], ends = [], wheelbase } = options;
        if (against === undefined && set.length + ends.length === 0 && wheelbase === undefined) {
          if (options.draws !== undefined) source.simulation.draws = options.draws;
          if (options.cars !== undefined) source.simulation.cars = options.cars;
          return { found: await runClasses(source, effort.workers, effort.tell) };
        }
        return { found: await runSetups({ file, text, source, against, set, ends, wheelbase }, effort) };
      }),
    );
  shared(program.command('place').argument('<case>', 'case file (YAML)'))
    .description('the best fore-aft place of every tub, and what an inch of misplacement costs')
    .option('--set <path=value>', SET_WORDS, settingOption)
    .action((file, options) =>
      study(file, 'place', options, options.set ?? [], async ({ source }, effort) => ({
        found: await runPlaces(source, options.set ?? [], effort),
      })),
    );
}
