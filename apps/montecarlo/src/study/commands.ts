import { type Command, InvalidArgumentError } from '@commander-js/extra-typings';
import type { Setting } from '@tubgap/casefile';
import { settingOption, wholeNumber } from '@tubgap/casefile/command-line';
import { numberWords } from '../case-copy.ts';
import { pickTime } from '../draw-count.ts';
import { MOST_SHARDS } from '../shards/order.ts';
import { isInShards, shardOption, sweepInShards } from '../shards/sweep-in-shards.ts';
import { runClasses } from './classes.ts';
import { StudyFault } from './fault.ts';
import { runPlaces } from './places.ts';
import { runStudyCommand } from './run-study-command.ts';
import { otherCase, readOther, runSetups } from './setups.ts';
import { runSweep } from './sweep.ts';
import { type Mode, readMode, readSweepFile, SWEEP_FILE, sweepFileText } from './sweep-file.ts';
import { readVary, type Vary } from './vary.ts';

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

interface SweepOptions {
  file?: string | undefined;
  vary?: string[] | undefined;
  mode?: Mode | undefined;
  set?: Setting[] | undefined;
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

/** Adds what every study knows: where to write, how much to simulate. */
const shared = <Arguments extends unknown[]>(command: Command<Arguments>) =>
  command
    .option('--results <folder>', 'folder that holds the results folders', 'results')
    .option(
      '--draws <number>',
      'simulated runs of every setup; left out: as many as the accepted risk asks for',
      wholeNumber(2048, Number.MAX_SAFE_INTEGER),
    )
    .option('--seed <number>', 'seed of the random numbers', wholeNumber(0, Number.MAX_SAFE_INTEGER))
    .option('--workers <number>', 'worker threads; the answer does not depend on them', wholeNumber(1, 256));

const setWords = (set: readonly Setting[] = []): string[] =>
  set.flatMap(({ path, value }) => ['--set', `${path}=${value}`]);

const SET_WORDS = 'value in place of the file’s, such as "run.trapSpeed=~230 mph"; may be repeated';

/** Adds the commands that run a case more than once. */
export function addStudyCommands(program: Command): void {
  shared(program.command('sweep').argument('<case>', 'case file (YAML)'))
    .description('run a case over values of its inputs')
    .option('--vary <path=values>', 'what to vary; may be repeated', repeated)
    .option('--file <sweep>', 'sweep file (YAML)')
    .option('--mode <grid|one-at-a-time>', 'every combination, or one input at a time', modeOption)
    .option('--set <path=value>', SET_WORDS, settingOption)
    .option('--shard <i/n>', 'work out one of n shards and keep it for tubgap merge', shardOption)
    .option('--shards <number>', 'run in so many shards', wholeNumber(1, MOST_SHARDS))
    .option('--queue', 'have the shards worked out by the workers behind REDIS_URL')
    .action((file, options) =>
      isInShards(options)
        ? sweepInShards(file, options, () => askedOf(options))
        : runStudyCommand('sweep', file, options, options.set ?? [], async (read, effort) => {
            const { mode, varies, set } = askedOf(options);
            const found = await runSweep({ read, set, varies, mode }, effort);
            const files = { [SWEEP_FILE]: sweepFileText(mode, varies) };
            return { found, files, words: ['--file', SWEEP_FILE, ...setWords(set)] };
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
      runStudyCommand('compare', file, options, [], async (read, effort) => {
        const { against, set = [], ends = [], wheelbase, draws, cars } = options;
        if (against === undefined && set.length + ends.length === 0 && wheelbase === undefined) {
          const { source } = read;
          if (draws !== undefined) source.simulation.draws = draws;
          if (cars !== undefined) source.simulation.cars = cars;
          const time = pickTime(source, effort.workers);
          if (time !== undefined) process.stderr.write(`${time}\n`);
          const found = await runClasses(source, effort.workers, effort.tell);
          return { found, words: numberWords({ draws, cars }) };
        }
        const beside = against === undefined ? undefined : readOther(against);
        const found = await runSetups({ read, against: beside, set, ends, wheelbase }, effort);
        const other = beside && otherCase(beside);
        const words = [
          ...(other === undefined ? [] : ['--against', other.file]),
          ...setWords(set),
          ...ends.flatMap((one) => ['--ends', one]),
          ...(wheelbase === undefined ? [] : ['--wheelbase', wheelbase]),
        ];
        return { found, files: other?.files ?? {}, words };
      }),
    );
  shared(program.command('place').argument('<case>', 'case file (YAML)'))
    .description('the best fore-aft place of every tub, and what an inch of misplacement costs')
    .option('--set <path=value>', SET_WORDS, settingOption)
    .action((file, options) =>
      runStudyCommand('place', file, options, options.set ?? [], async ({ source }, effort) => ({
        found: await runPlaces(source, options.set ?? [], effort),
        words: setWords(options.set),
      })),
    );
}
