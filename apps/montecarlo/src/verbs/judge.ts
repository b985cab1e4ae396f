import type { Command } from '@commander-js/extra-typings';
import {
  CARS,
  CASE,
  centreOption,
  conclude,
  DRAWS,
  example,
  SEED,
  SET,
  topHeightOption,
  WORKERS,
} from '@tubgap/casefile/command-line';

/** The verb that judges a tub that stands in the car. */
export const judge = (program: Command) =>
  program
    .command('judge')
    .description(
      'judge the tub that stands in the car: within what is accepted or not, with which risk, and what would mend it',
    )
    .argument(...CASE)
    .option(
      '--tub <name>',
      'tub that stands in the car; left out: the as-built table’s, the case’s only one, else the pick’s',
    )
    .option(
      '--height <length>',
      'inside top of the tub above the track, such as "39 1/4 in"; left out: the as-built table’s, else as that tub is set out',
      topHeightOption,
    )
    .option(
      '--centre <length>',
      'centre of its arc ahead of the axle, "-1/2 in" is behind; left out: the as-built table’s, else the case’s',
      centreOption,
    )
    .option('--measured <folder>', 'folder of measurements with as-built.csv; left out: none is read')
    .option(...DRAWS)
    .option(...CARS)
    .option(...SEED)
    .option(...SET)
    .option(...WORKERS)
    .option('--json', 'print the verdict as JSON in SI; left out: in words')
    .addHelpText(
      'after',
      example(
        'tubgap judge mycar.yaml --tub street-42 --height "38 5/8 in"',
        'tubgap judge mycar.yaml --measured measurements',
      ) +
        '\nExit codes: 0 within what is accepted; 4 not within; 3 not known, too few runs; 2 something in the input to mend',
    )
    .action((file, options) =>
      conclude(file, async () => {
        const { runJudge } = await import('../judge/run-judge.ts');
        return runJudge(file, options);
      }),
    );
