import type { Command } from '@commander-js/extra-typings';
import { CASE, conclude, example, SET, topHeightOption, UNITS } from '@tubgap/casefile/command-line';

/** The verb that tells finished results again. */
export const report = (program: Command) =>
  program
    .command('report')
    .description('write the tables and papers of finished results again, and print the decision')
    .argument('<folder>', 'results folder of a case, such as results/mycar')
    .option(...UNITS)
    .option('--json', 'print the picks as JSON; left out: in words')
    .addHelpText('after', example('tubgap report results/mycar'))
    .action((folder, { json, units }) =>
      conclude(
        folder,
        async () => {
          const { runReport } = await import('./run-report.ts');
          return runReport(folder, json === true, units);
        },
        { json },
      ),
    );

/** The verb that puts the results of several cars on one page. */
export const year = (program: Command) =>
  program
    .command('year')
    .description('write an overview of several cars: shop-year.csv and shop-year.html')
    .argument('<folders...>', 'results folders of the cars, such as results/car-a')
    .option('--to <folder>', 'folder to write into; left out: the one you are in')
    .option(...UNITS)
    .option('--json', 'print the table as JSON; left out: in words')
    .addHelpText('after', example('tubgap year results/car-a results/car-b'))
    .action((folders, { to = '.', json, units }) =>
      conclude(
        folders.join(' '),
        async () => {
          const { runYear } = await import('./run-report.ts');
          return runYear(folders, to, json === true, units);
        },
        { json },
      ),
    );

/** The verb that says what changed from one result to another. */
export const revision = (program: Command) =>
  program
    .command('revision')
    .description('say what changed from one result of a case to another, and what that asks for')
    .argument('<old>', 'results folder of the old result')
    .argument('<new>', 'results folder of the new result')
    .option(...UNITS)
    .option('--json', 'print heights and changes as JSON in SI; left out: in words')
    .addHelpText('after', example('tubgap revision old/mycar results/mycar'))
    .action((before, after, { json, units }) =>
      conclude(
        `${before} ${after}`,
        async () => {
          const { runRevision } = await import('./run-report.ts');
          return runRevision(before, after, json === true, units);
        },
        { json },
      ),
    );

/** The verb that shows one state in plain steps. */
export const state = (program: Command) =>
  program
    .command('state')
    .description('show one state of a case with every intermediate value, to check by hand')
    .argument(...CASE)
    .option('--tyre <name>', 'tyre of the case; left out: its first')
    .option('--tub <name>', 'tub of the case; left out: its first')
    .option(
      '--moment <name>',
      'burnout, launch, "gear change", middle, "grip lost", finish, "after the lift" or parachute; left out: finish',
    )
    .option(
      '--height <length>',
      'inside top of the tub above the track, such as "39 1/4 in"; left out: the lowest that clears at rest, plus 6 in',
      topHeightOption,
    )
    .option(...SET)
    .option('--json', 'print the values as JSON in SI; left out: as a sheet')
    .option(
      '--history <file>',
      'write the whole run too, as CSV: every moment, then every metre of the track; left out: the one state alone',
    )
    .addHelpText(
      'after',
      example('tubgap state mycar.yaml --tyre tall-slick --moment launch --height "40 in"'),
    )
    .action((file, options) =>
      conclude(
        file,
        async () => {
          const { runState } = await import('./state/run-state.ts');
          return runState(file, options);
        },
        options,
      ),
    );
