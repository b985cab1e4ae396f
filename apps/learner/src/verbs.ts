import type { Command } from '@commander-js/extra-typings';
import {
  CASE,
  conclude,
  example,
  RESULTS,
  SEED,
  SET,
  topHeightOption,
  UNITS,
  wholeNumber,
  withUnits,
} from '@tubgap/casefile/command-line';

/** Simulated runs and cars of before and after when nothing is said. */
const DRAWS = 40_960;
const CARS = 600;

/** The verb that learns from what a shop measured. */
export const learn = (program: Command) =>
  program
    .command('learn')
    .description('learn from what the shop measured of its car: tape, scale, run logs, tell-tales, marks')
    .argument(...CASE)
    .requiredOption('--measured <folder>', 'folder with the measurements as CSV files; must be given')
    .option(...RESULTS)
    .option(
      '--draws <number>',
      'simulated runs for before and after, from 4,096 on; left out: 40,960',
      wholeNumber(4096, 10_000_000),
    )
    .option(
      '--cars <number>',
      `simulated cars for the season risk before and after, from 64 on; left out: ${CARS}`,
      wholeNumber(64, 1_000_000),
    )
    .option(...SEED)
    .option(...SET)
    .option(...UNITS)
    .option('--json', 'print what was learned as JSON in SI; left out: in words')
    .addHelpText('after', example('tubgap learn mycar.yaml --measured measurements'))
    .action((file, { draws = DRAWS, cars = CARS, ...options }) =>
      conclude(
        file,
        async () => {
          const { runLearn } = await import('./run-learn.ts');
          return runLearn(file, { draws, cars, ...withUnits(options) });
        },
        options,
      ),
    );

/** The verb that judges the tub in the car and plans its first test. */
export const plan = (program: Command) =>
  program
    .command('plan')
    .description(
      'judge the tub in the car, then plan a stepped first test: where to shut off, what to look at, what lets it go on',
    )
    .argument(...CASE)
    .option('--tub <name>', 'tub that is in the car; left out: the pick')
    .option('--tyre <name>', 'tyre that runs; left out: the one that asks for the most height')
    .option(
      '--height <length>',
      'inside top of the tub above the track, such as "39 1/4 in"; left out: as the pick is set out',
      topHeightOption,
    )
    .option(
      '--overrule <words>',
      'who plans for a tub that is not within the accepted risk, and why: it stands on the paper; left out: such a tub is refused',
    )
    .option(...RESULTS)
    .option(
      '--draws <number>',
      'simulated runs, from 4,096 on; left out: the case’s',
      wholeNumber(4096, 10_000_000),
    )
    .option(...SET)
    .option(...UNITS)
    .option('--json', 'print verdict and plan as JSON in SI; left out: in words')
    .addHelpText('after', example('tubgap plan mycar.yaml --tub street-42 --height "39 1/4 in"'))
    .action((file, options) =>
      conclude(
        file,
        async () => {
          const { runPlan } = await import('./run-plan.ts');
          return runPlan(file, withUnits(options));
        },
        options,
      ),
    );
