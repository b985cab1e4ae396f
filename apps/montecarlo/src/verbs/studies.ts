import type { Command } from '@commander-js/extra-typings';
import {
  CASE,
  conclude,
  example,
  NAME,
  RESULTS,
  repeated,
  SEED,
  SET,
  settingOption,
  UNITS,
  WORKERS,
  wholeNumber,
  withUnits,
} from '@tubgap/casefile/command-line';
import { MOST_SHARDS, shardOption } from '../shards/shard-choice.ts';
import { modeOption } from '../study/mode.ts';
import type { WrittenHandler } from '../written.ts';

const STUDY_DRAWS = [
  '--draws <number>',
  'simulated runs of every setup; left out: as many as the accepted risk asks for',
  wholeNumber(2048, Number.MAX_SAFE_INTEGER),
] as const;

const SEASONS = [
  '--seasons',
  'tell the risk of a season of every setup too, as a pick does, and the height that keeps it; left out: not told',
] as const;

/** What is said of files when a study has failed. */
const UNCHANGED = 'No results were changed.';

/** The verb that runs a case over values of its inputs. @param telling  what is done with its results */
export const sweep = (telling: WrittenHandler) => (program: Command) =>
  program
    .command('sweep')
    .description('run a case over values of its inputs: what moves the height, and by how many sixteenths')
    .argument(...CASE)
    .option(
      '--vary <path=values>',
      'what to vary, here or in --file: "run.trapSpeed = 200 mph to 240 mph by 10 mph", or "tyres[*].coldPressure = ±1 psi" for every tyre by changes, or "tyres[0].tyre = NAME, NAME"; also tub, tyre and topHeight; may be repeated',
      repeated,
    )
    .option(
      '--file <sweep>',
      'sweep file (YAML) with mode and, under sweep, the list of what to vary; --vary adds to it',
    )
    .option(
      '--points <table>',
      'table of points (CSV), each row a setup: a column an input by its path and unit, such as run.trapSpeed_mph; left out: what is varied makes the points',
    )
    .option(
      '--mode <grid|one-at-a-time|points>',
      'grid: every combination; one-at-a-time: each input alone; points: the first values of all, the second, and so on; left out: as the sweep file says, or grid',
      modeOption,
    )
    .option(...SET)
    .option(...RESULTS)
    .option(...NAME)
    .option(...SEASONS)
    .option(...STUDY_DRAWS)
    .option(...SEED)
    .option(...UNITS)
    .option(...WORKERS)
    .option(
      '--shard <i/n>',
      'work out shard i of n only, on this machine, and keep it for tubgap merge; left out: all of the sweep',
      shardOption,
    )
    .option(
      '--shards <number>',
      'run in so many shards, 1 to 10,000; the same command goes on from those that are done; left out: in one go',
      wholeNumber(1, MOST_SHARDS),
    )
    .option(
      '--queue',
      'have the shards worked out by every tubgap work at the queue of REDIS_URL; left out: by this machine',
    )
    .addHelpText(
      'after',
      example(
        'tubgap sweep mycar.yaml --vary "run.trapSpeed = 210 mph to 238 mph by 7 mph"',
        'tubgap sweep mycar.yaml --file sweep.yaml --shards 40',
      ),
    )
    .action((file, options, command) =>
      conclude(
        file,
        async () => {
          const { runSweepVerb } = await import('../study/run-studies.ts');
          return runSweepVerb(file, withUnits(options), (written) => telling(written, command.opts()));
        },
        { kept: UNCHANGED, ...command.opts() },
      ),
    );

/** The verb that puts tyres, or setups, side by side. @param telling  what is done with its results */
export const compare = (telling: WrittenHandler) => (program: Command) =>
  program
    .command('compare')
    .description(
      'say which tyre fits which tub at which height; or, with another setup, put setups side by side',
    )
    .argument(...CASE)
    .option(
      '--against <case>',
      'case file of another setup; left out: the case itself with --set, or its tyres one by one',
    )
    .option(
      '--set <path=value>',
      'value of the other setup, such as "suspension.bumpTravel=~1.4 in" (~ keeps the spread); may be repeated',
      settingOption,
    )
    .option(
      '--ends <path=low,high>',
      'both ends of an input, each a setup of its own, such as "tyres[0].coldPressure = 5 psi, 7 psi"; may be repeated',
      repeated,
    )
    .option(
      '--wheelbase <shortest,longest>',
      'both ends of the wheelbase adjustment, such as "107 in, 109 in": the axle moves, the tub stays on the body',
    )
    .option(
      '--cars <number>',
      'simulated cars for the season risk; with another setup beside --seasons; left out: the case’s',
      wholeNumber(1, 1_000_000),
    )
    .option(...SEASONS)
    .option(...RESULTS)
    .option(...NAME)
    .option(...STUDY_DRAWS)
    .option(...SEED)
    .option(...UNITS)
    .option(...WORKERS)
    .addHelpText(
      'after',
      example(
        'tubgap compare mycar.yaml',
        'tubgap compare mycar.yaml --set "suspension.bumpTravel=~1.4 in"',
        'tubgap compare mycar.yaml --against othercar.yaml',
      ),
    )
    .action((file, options, command) =>
      conclude(
        file,
        async () => {
          const { runCompareVerb } = await import('../study/run-studies.ts');
          return runCompareVerb(file, options, (written) => telling(written, command.opts()));
        },
        { kept: UNCHANGED, ...command.opts() },
      ),
    );

/** The verb that finds the best place of every tub. @param telling  what is done with its results */
export const place = (telling: WrittenHandler) => (program: Command) =>
  program
    .command('place')
    .description('find the best fore-aft place of every tub, and what an inch of misplacement costs')
    .argument(...CASE)
    .option(...SET)
    .option(...RESULTS)
    .option(...NAME)
    .option(...STUDY_DRAWS)
    .option(...SEED)
    .option(...UNITS)
    .option(...WORKERS)
    .addHelpText('after', example('tubgap place mycar.yaml'))
    .action((file, options, command) =>
      conclude(
        file,
        async () => {
          const { runPlaceVerb } = await import('../study/run-studies.ts');
          return runPlaceVerb(file, withUnits(options), (written) => telling(written, command.opts()));
        },
        { kept: UNCHANGED, ...command.opts() },
      ),
    );
