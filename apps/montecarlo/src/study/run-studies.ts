import type { Setting } from '@tubgap/casefile';
import { printRemarks, unitsSetting } from '@tubgap/casefile/command-line';
import { numberWords } from '../case-copy.ts';
import { pickTime } from '../draw-count.ts';
import type { ReadCase } from '../options.ts';
import { isInShards, type ShardOptions, sweepInShards } from '../shards/sweep-in-shards.ts';
import type { OnWritten } from '../written.ts';
import { runClasses } from './classes.ts';
import { StudyFault } from './fault.ts';
import type { Mode } from './mode.ts';
import { type Goal, runOptimise } from './optimise.ts';
import { readOver } from './over.ts';
import { runPlaces } from './places.ts';
import { readPointsTable } from './points-table.ts';
import { runStudyCommand, type StudyOptions } from './run-study-command.ts';
import { otherCase, readOther, runSetups } from './setups.ts';
import { FREE, runSweep, type SweepAsked } from './sweep.ts';
import { readSweepFile, SWEEP_FILE, sweepFileText } from './sweep-file.ts';
import { readVary } from './vary.ts';

interface SweepOptions extends ShardOptions {
  file?: string | undefined;
  vary?: string[] | undefined;
  points?: string | undefined;
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

/** What the options of a sweep ask for. @throws StudyFault, Stop that say what is wrong with it */
async function askedOf(
  { file, vary = [], points, mode, set = [] }: SweepOptions,
  { source }: ReadCase,
): Promise<Omit<SweepAsked, 'read'>> {
  const fromFile = file === undefined ? { mode: undefined, varies: [] } : readSweepFile(file);
  const varies = [...fromFile.varies, ...vary.map((one) => readVary(one))];
  if (points === undefined) {
    if (varies.length > 0) return { mode: mode ?? fromFile.mode ?? 'grid', varies, set };
    throw new StudyFault([
      'Nothing to vary was named. Write for example --vary "run.trapSpeed = 200 mph to 240 mph by 10 mph", or --file with a sweep file, or --points with a table of points.',
    ]);
  }
  if ((mode ?? fromFile.mode ?? 'points') !== 'points') {
    throw new StudyFault([`--points gives the points themselves; leave the mode out.`]);
  }
  const other = varies.find(({ path }) => !FREE.includes(path));
  if (other !== undefined) {
    throw new StudyFault([
      `${other.place}  stands beside --points; put it into the table. ${FREE.join(', ')} may stand beside it.`,
    ]);
  }
  const table = await readPointsTable(points, source);
  if (table.unread.length > 0) {
    printRemarks([`${points}: not read, for they name no input of the case: ${table.unread.join(', ')}.`]);
  }
  return { mode: 'points', varies: [...table.varies, ...varies], set };
}

const setWords = (set: readonly Setting[] = []): string[] =>
  set.flatMap(({ path, value }) => ['--set', `${path}=${value}`]);

const unitsWords = ({ units }: CompareOptions): string[] => (units === undefined ? [] : ['--units', units]);

/** Runs a sweep as its verb asks for it. @returns exit code */
export const runSweepVerb = (file: string, options: SweepOptions, onWritten: OnWritten): Promise<number> =>
  isInShards(options)
    ? sweepInShards(file, options, options.set ?? [], (read) => askedOf(options, read), onWritten)
    : runStudyCommand(
        'sweep',
        file,
        options,
        options.set ?? [],
        async (read, effort) => {
          const { mode, varies, set } = await askedOf(options, read);
          const found = await runSweep({ read, set, varies, mode }, effort);
          const files = { [SWEEP_FILE]: sweepFileText(mode, varies) };
          return { found, files, words: ['--file', SWEEP_FILE, ...setWords(found.settings)] };
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
      const { against, set = [], ends = [], wheelbase, draws, cars, seasons } = options;
      if (cars !== undefined) read.source.simulation.cars = cars;
      if (against === undefined && set.length + ends.length === 0 && wheelbase === undefined) {
        const { source } = read;
        if (draws !== undefined) source.simulation.draws = draws;
        const time = pickTime(source, effort.workers);
        if (time !== undefined) process.stderr.write(`${time}\n`);
        const found = await runClasses(source, effort.workers, effort.tell);
        return { found, words: [...unitsWords(options), ...numberWords({ draws, cars })] };
      }
      if (cars !== undefined && seasons === undefined) {
        throw new StudyFault(['--cars are those of the seasons; with another setup give --seasons as well.']);
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
        ...numberWords({ cars }),
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

interface OptimiseOptions extends StudyOptions {
  over?: string[] | undefined;
  goal?: Goal | undefined;
  tub?: string | undefined;
  height?: number | undefined;
  cars?: number | undefined;
  set?: Setting[] | undefined;
}

/** Finds the best values of some inputs as the verb asks for it. @returns exit code */
export const runOptimiseVerb = (
  file: string,
  options: OptimiseOptions,
  onWritten: OnWritten,
): Promise<number> =>
  runStudyCommand(
    'optimise',
    file,
    options,
    options.set ?? [],
    async (read, effort) => {
      const { over = [], goal = 'height', tub, height, draws, cars, set = [] } = options;
      if (over.length === 0) {
        throw new StudyFault([
          'Nothing to choose was named. Write for example --over "tubCentreForward = 0..1 in" or --over "tyres[*].coldPressure = 6..9 psi".',
        ]);
      }
      const { simulation } = read.source;
      if (draws !== undefined) simulation.draws = draws;
      if (cars !== undefined) simulation.cars = cars;
      const names = tub?.split(',').map((name) => name.trim()) ?? [];
      const found = await runOptimise(
        { read, set, goal, overs: over.map(readOver), tubs: names, height },
        effort,
      );
      const words = [
        ...over.flatMap((one) => ['--over', one]),
        ...(goal === 'height' ? [] : ['--goal', goal]),
        ...(tub === undefined ? [] : ['--tub', tub]),
        ...(height === undefined ? [] : ['--height', `${height} m`]),
        ...setWords(set),
        ...numberWords({ draws, cars }),
      ];
      return { found, words };
    },
    onWritten,
  );
