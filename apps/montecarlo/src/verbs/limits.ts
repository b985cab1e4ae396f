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
import { limitedOption } from '../judge/limited-option.ts';
import { CENTRE, HEIGHT, MEASURED, STANDING_CODES, TUB } from './standing-options.ts';

/** The verb that finds how far each number may go for a tub at its height. */
export const limits = (program: Command) =>
  program
    .command('limits')
    .description(
      'find how fast the car may run, on how little pressure, on how soft a spring … for a tub at its height to stay within what is accepted, or to come within it',
    )
    .argument(...CASE)
    .option(...TUB)
    .option(...HEIGHT)
    .option(...CENTRE)
    .option(...MEASURED)
    .option(
      '--of <list>',
      'what is asked about, such as speed,pressure: speed, launch, pressure, spring, stop, travel, mass, reserve, diameter (the smallest inside at that height and place, for a tub that is rolled to size), runs, tyre (the largest of the catalogue that is built like the limiting one); left out: all of them',
      limitedOption,
    )
    .option(...DRAWS)
    .option(...CARS)
    .option(...SEED)
    .option(...SET)
    .option(...UNITS)
    .option(...WORKERS)
    .option('--json', 'print verdict and limits as JSON in SI; left out: in words')
    .addHelpText(
      'after',
      example(
        'tubgap limits mycar.yaml --tub street-42 --height "40 in"',
        'tubgap limits mycar.yaml --tub street-42 --height "38 5/8 in" --of speed,pressure,travel',
        'tubgap limits mycar.yaml --tub street-42 --height "40 in" --centre "1/2 in" --of diameter',
        'tubgap limits mycar.yaml --tub street-42 --height "40 in" --of tyre',
      ) + STANDING_CODES,
    )
    .action((file, options) =>
      conclude(
        file,
        async () => {
          const { runLimits } = await import('../judge/run-limits.ts');
          return runLimits(file, withUnits(options));
        },
        options,
      ),
    );
