import { type Command, Option } from '@commander-js/extra-typings';
import {
  CARS,
  CASE,
  conclude,
  DRAWS,
  example,
  NAME,
  RESULTS,
  repeated,
  SEED,
  SET,
  topHeightOption,
  UNITS,
  WORKERS,
  withUnits,
} from '@tubgap/casefile/command-line';
import type { WrittenHandler } from '../written.ts';

/** The verb that finds the best values of some inputs under risk. @param telling  what is done with its results */
export const optimise = (telling: WrittenHandler) => (program: Command) =>
  program
    .command('optimise')
    .description(
      'find the place, pressure, travel … within given ranges at which a tub’s top may be lowest, the tub smallest or the speed highest, at the accepted risk; and what holds it there',
    )
    .argument(...CASE)
    .option(
      '--over <path=range>',
      'what may be chosen, and its range: "tubCentreForward = 0..1 in", "tyres[*].coldPressure = 6..9 psi by 0.25 psi", changes such as "suspension.bumpTravel = -0.2..+0.2 in"; a path is one that sweep varies; 1 to 4 of them',
      repeated,
    )
    .addOption(
      new Option(
        '--goal <goal>',
        'what is to be the best: height (the least top height of a tub), tub (the smallest tub that needs no more than --height), speed (the highest in the tub that stands at --height); left out: height',
      ).choices(['height', 'tub', 'speed']),
    )
    .option(
      '--tub <names>',
      'tub that is meant, any of the catalogue; for the smallest several at commas; left out: the pick’s, for the smallest all of the case',
    )
    .option(
      '--height <length>',
      'greatest top height that will do, or the one at which the tub stands, such as "39 1/4 in"; left out: the least is sought',
      topHeightOption,
    )
    .option(...SET)
    .option(...RESULTS)
    .option(...NAME)
    .option(...DRAWS)
    .option(...CARS)
    .option(...SEED)
    .option(...UNITS)
    .option(...WORKERS)
    .addHelpText(
      'after',
      example(
        'tubgap optimise mycar.yaml --over "tubCentreForward = 0..1 in" --over "tyres[*].coldPressure = +0..+2 psi"',
        'tubgap optimise mycar.yaml --goal tub --height "39 1/2 in" --over "tubCentreForward = -1..1 in"',
        'tubgap optimise mycar.yaml --goal speed --tub street-42 --height "39 1/2 in" --over "tubCentreForward = 0..1 in"',
      ),
    )
    .action((file, options, command) =>
      conclude(
        file,
        async () => {
          const { runOptimiseVerb } = await import('../study/run-studies.ts');
          return runOptimiseVerb(file, withUnits(options), (written) => telling(written, command.opts()));
        },
        { kept: 'No results were changed.', ...command.opts() },
      ),
    );
