import type { Setting } from '@tubgap/casefile';
import { unitsSetting } from '@tubgap/casefile/command-line';
import { numberWords } from '../case-copy.ts';
import { pickTime } from '../draw-count.ts';
import { isInShards, type ShardOptions, sweepInShards } from '../shards/sweep-in-shards.ts';
import type { OnWritten } from '../written.ts';
import { runClasses } from './classes.ts';
import { StudyFault } from './fault.ts';
import type { Mode } from './mode.ts';
import { runPlaces } from './places.ts';
import { runStudyCommand, type StudyOptions } from './run-study-command.ts';
import { otherCase, readOther, runSetups } from './setups.ts';
import { runSweep } from './sweep.ts';
import { readSweepFile, SWEEP_FILE, sweepFileText } from './sweep-file.ts';
import { readVary, type Vary } from './vary.ts';

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

interface SweepOptions extends ShardOptions {
  file?: string | undefined;
  vary?: string[] | undefined;
  mode?: Mode | undefined;
  set?: Setting[] | undefined;
}

interface CompareOptions extends StudyOptions {
  against?: string | undefined;
  set?: Setting[] | undefined;
  /** Of all that is told; a `set` is the other setup's. */
  units?: Parameters<typeof unitsSetting>[0];
  ends?: string[] | undefined;
  wheelbase?: string | undefined;
  cars?: number | undefined;
}

/** What the options of a sweep ask for. */
function askedOf({ file, vary = [], mode, set = [] }: SweepOptions): {
  mode: Mode;
  varies: Vary[];
  set: Setting[];
} {
  const { mode: written, varies } = variesOf(file, vary);
  return { mode: mode ?? written ?? 'grid', varies, set };
}

const setWords = (set: readonly Setting[] = []): string[] =>
  set.flatMap(({ path, value }) => ['--set', `${path}=${value}`]);

const unitsWords = ({ units }: CompareOptions): string[] => (units === undefined ? [] : ['--units', units]);

/** Runs a sweep as its verb asks for it. @returns exit code */
export const runSweepVerb = (file: string, options: SweepOptions, onWritten: OnWritten): Promise<number> =>
  isInShards(options)
    ? sweepInShards(file, options, () => askedOf(options), onWritten)
    : runStudyCommand(
        'sweep',
        file,
        options,
        options.set ?? [],
        async (read, effort) => {
          const { mode, varies, set } = askedOf(options);
          const found = await runSweep({ read, set, varies, mode }, effort);
          const files = { [SWEEP_FILE]: sweepFileText(mode, varies) };
          return { found, files, words: ['--file', SWEEP_FILE, ...setWords(set)] };
        },
        onWritten,
      );

/** Puts tyres or setups side by side as the verb asks for it. @returns exit code */
export const runCompareVerb = (
  file: string,
  options: CompareOptions,
  onWritten: OnWritten,
): Promise<number> =>
  runStudyCommand(
    'compare',
    file,
    options,
    unitsSetting(options.units),
    async (read, effort) => {
      const { against, set = [], ends = [], wheelbase, draws, cars } = options;
      if (against === undefined && set.length + ends.length === 0 && wheelbase === undefined) {
        const { source } = read;
        if (draws !== undefined) source.simulation.draws = draws;
        if (cars !== undefined) source.simulation.cars = cars;
        const time = pickTime(source, effort.workers);
        if (time !== undefined) process.stderr.write(`${time}\n`);
        const found = await runClasses(source, effort.workers, effort.tell);
        return { found, words: [...unitsWords(options), ...numberWords({ draws, cars })] };
      }
      const beside = against === undefined ? undefined : readOther(against);
      const found = await runSetups({ read, against: beside, set, ends, wheelbase }, effort);
      const other = beside && otherCase(beside);
      const words = [
        ...unitsWords(options),
        ...(other === undefined ? [] : ['--against', other.file]),
        ...setWords(set),
        ...ends.flatMap((one) => ['--ends', one]),
        ...(wheelbase === undefined ? [] : ['--wheelbase', wheelbase]),
      ];
      return { found, files: other?.files ?? {}, words };
    },
    onWritten,
  );

/** Finds the best place of every tub as the verb asks for it. @returns exit code */
export const runPlaceVerb = (
  file: string,
  options: StudyOptions & { set?: Setting[] | undefined },
  onWritten: OnWritten,
): Promise<number> =>
  runStudyCommand(
    'place',
    file,
    options,
    options.set ?? [],
    async ({ source }, effort) => ({
      found: await runPlaces(source, options.set ?? [], effort),
      words: setWords(options.set),
    }),
    onWritten,
  );
