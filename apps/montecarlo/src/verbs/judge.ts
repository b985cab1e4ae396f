import type { Command } from '@commander-js/extra-typings';
import {
  CARS,
  CASE,
  conclude,
  DRAWS,
  example,
  SEED,
  SET,
  UNITS,
  WORKERS,
  withUnits,
} from '@tubgap/casefile/command-line';
import { CENTRE, HEIGHT, MEASURED, STANDING_CODES, TUB } from './standing-options.ts';

/** The verb that judges a tub that stands in the car. */
export const judge = (program: Command) =>
  program
    .command('judge')
    .description(
      'judge the tub that stands in the car: within what is accepted or not, with which risk, and what would mend it',
    )
    .argument(...CASE)
    .option(...TUB)
    .option(...HEIGHT)
    .option(...CENTRE)
    .option(...MEASURED)
    .option(...DRAWS)
    .option(...CARS)
    .option(...SEED)
    .option(...SET)
    .option(...UNITS)
    .option(...WORKERS)
    .option('--json', 'print the verdict as JSON in SI; left out: in words')
    .addHelpText(
      'after',
      example(
        'tubgap judge mycar.yaml --tub street-42 --height "38 5/8 in"',
        'tubgap judge mycar.yaml --measured measurements',
      ) + STANDING_CODES,
    )
    .action((file, options) =>
      conclude(
        file,
        async () => {
          const { runJudge } = await import('../judge/run-judge.ts');
          return runJudge(file, withUnits(options));
        },
        options,
      ),
    );
