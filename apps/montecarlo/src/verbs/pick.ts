import type { Command } from '@commander-js/extra-typings';
import {
  CARS,
  CASE,
  conclude,
  DRAWS,
  example,
  RESULTS,
  SEED,
  SET,
  UNITS,
  WORKERS,
  withUnits,
} from '@tubgap/casefile/command-line';
import type { PickHandler } from '../written.ts';

/** The verb that simulates a case. @param telling  how it is told */
export const pick = (telling: PickHandler) => (program: Command) =>
  program
    .command('pick')
    .description(
      'simulate a case, write its results folder and print which tub to build, how high, with which risk',
    )
    .argument(...CASE)
    .option(...RESULTS)
    .option(...DRAWS)
    .option(...CARS)
    .option(...SEED)
    .option(...SET)
    .option(...UNITS)
    .option(...WORKERS)
    .addHelpText(
      'after',
      example(
        'tubgap pick mycar.yaml',
        'tubgap pick mycar.yaml --set "tyres[0].coldPressure=~7 psi" --results trials',
      ),
    )
    .action((file, options, command) =>
      conclude(
        file,
        async () => {
          const { runPick } = await import('../pick.ts');
          return runPick(file, withUnits(options), telling(command.opts()));
        },
        { kept: 'No results were changed.', ...command.opts() },
      ),
    );
