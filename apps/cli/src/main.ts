#!/usr/bin/env node
import { Command } from '@commander-js/extra-typings';
import { BAD_INPUT, TOO_FEW } from './exit-codes.ts';
import { hand, start } from './start.ts';
import { addStudyVerbs } from './study-verbs.ts';
import { given, repeated, settings } from './words.ts';

const program = new Command()
  .exitOverride((error) => process.exit(error.exitCode === 0 ? 0 : BAD_INPUT))
  .name('tubgap')
  .description(
    'How much room a drag-race car’s rear tyre needs inside its wheel tub, and how sure one can be.',
  )
  .addHelpText(
    'after',
    `
Examples:
  tubgap pick datasets/demo/case.yaml                      which tub, at which height, with which risk
  tubgap pick mycar.yaml --draws 1000000                   the same with a million simulated runs
  tubgap show mycar.yaml                                   a page to drag the tub on, at the desk or at the car
  tubgap sweep mycar.yaml --vary "run.trapSpeed = 200 mph to 240 mph by 10 mph"   what moves the height
  tubgap sweep mycar.yaml --file sweep.yaml --shard 3/10   one shard of ten; tubgap merge puts them together
  tubgap compare mycar.yaml                                which tyre fits which tub, what each tyre costs
  tubgap compare mycar.yaml --set "tyres[0].coldPressure=~7 psi"   two setups side by side
  tubgap place mycar.yaml                                  the best fore-aft place of the tub
  tubgap report results/winged-door-car                    tables and papers again, from finished results
  tubgap year results/car-a results/car-b                  all cars of a year on one page
  tubgap revision old/mycar results/mycar                  what changed, and what it asks for
  tubgap learn mycar.yaml --measured measurements          what tape, scale and run logs teach of this car
  tubgap plan mycar.yaml                                   a first test in steps, and what lets it go on
  tubgap state mycar.yaml --moment launch --height "40 in" one state, every value, to check by hand

Exit codes: 0 done; 1 a fault of the program; 2 something in the input to mend; 3 too few draws for the accepted risk;
130 or 143 stopped by hand (128 and the signal's number).

Tyre contact at speed can kill. The sanctioning body's rules, the tyre maker's limits and a qualified chassis builder
come first.`,
  );

program
  .command('pick')
  .description(
    'simulate a case, write its results folder and print which tub to build, how high, with which risk',
  )
  .argument('<case>', 'case file (YAML)')
  .option('--results <folder>', 'folder that holds the results folders')
  .option('--draws <number>', 'simulated runs, in place of the case’s')
  .option('--cars <number>', 'simulated cars for the season risk, in place of the case’s')
  .option('--seed <number>', 'seed of the random numbers, in place of the case’s')
  .option(
    '--set <path=value>',
    'value in place of the file’s, such as "run.trapSpeed=~230 mph"; may be repeated',
    repeated,
  )
  .option('--workers <number>', 'worker threads; the answer does not depend on them')
  .option('--json', 'print the picks as JSON')
  .action(async (file, options) => {
    const simulated = await start(
      'montecarlo',
      [
        file,
        ...given('results', options.results),
        ...given('draws', options.draws),
        ...given('cars', options.cars),
        ...given('seed', options.seed),
        ...given('workers', options.workers),
        ...settings(options.set),
      ],
      true,
    );
    if (simulated.code !== 0 && simulated.code !== TOO_FEW) process.exit(simulated.code);
    const place = simulated.output.trim();
    const reported = await start('reporter', ['tables', place, ...(options.json ? ['--json'] : [])], false);
    // The page to carry to the car; it begins at the pick just made.
    await start(
      'bench',
      [file, ...given('results', options.results), ...settings(options.set), '--no-open'],
      true,
    );
    if (!options.json && reported.code === 0) process.stdout.write(`  Written to ${place}\n`);
    process.exit(reported.code === 0 ? simulated.code : reported.code);
  });

program
  .command('show')
  .description('write and open a page on which the tub can be dragged and the risk seen; it works offline')
  .argument('<case>', 'case file (YAML)')
  .option('--results <folder>', 'folder that holds the results folders')
  .option('--out <file>', 'page to write; left out: at-the-car.html in the case’s results folder')
  .option(
    '--set <path=value>',
    'value in place of the file’s, such as "run.trapSpeed=~230 mph"; may be repeated',
    repeated,
  )
  .option('--no-open', 'only write the page')
  .action(async (file, options) => {
    const words = [
      file,
      ...given('results', options.results),
      ...given('out', options.out),
      ...settings(options.set),
      ...(options.open ? [] : ['--no-open']),
    ];
    process.exit(await hand('bench', words));
  });

addStudyVerbs(program);

program
  .command('report')
  .description('write the tables and papers of a finished results folder again and print the decision')
  .argument('<folder>', 'results folder')
  .option('--json', 'print the picks as JSON')
  .action(async (folder, options) => {
    process.exit(await hand('reporter', ['tables', folder, ...(options.json ? ['--json'] : [])]));
  });

program
  .command('year')
  .description('write an overview of several cars: shop-year.csv and shop-year.html')
  .argument('<folders...>', 'results folders')
  .option('--to <folder>', 'folder to write into; the current one when left out')
  .action(async (folders, options) => {
    process.exit(await hand('reporter', ['year', ...folders, ...given('to', options.to)]));
  });

program
  .command('revision')
  .description('say what changed from one result of a case to another, and what that asks for')
  .argument('<old>', 'results folder of the old result')
  .argument('<new>', 'results folder of the new result')
  .action(async (before, after) => {
    process.exit(await hand('reporter', ['revision', before, after]));
  });

program
  .command('learn')
  .description('learn from what the shop measured of its car: tape, scale, run logs, tell-tales, marks')
  .argument('<case>', 'case file (YAML)')
  .requiredOption('--measured <folder>', 'folder with the measurements as CSV files')
  .option('--results <folder>', 'folder that holds the results folders')
  .option('--draws <number>', 'simulated runs for before and after')
  .option('--cars <number>', 'simulated cars for the season risk before and after')
  .option('--seed <number>', 'seed of the random numbers, in place of the case’s')
  .option('--set <path=value>', 'value in place of the file’s; may be repeated', repeated)
  .action(async (file, options) => {
    const words = [
      'learn',
      file,
      ...given('measured', options.measured),
      ...given('results', options.results),
      ...given('draws', options.draws),
      ...given('cars', options.cars),
      ...given('seed', options.seed),
      ...settings(options.set),
    ];
    process.exit(await hand('learner', words));
  });

program
  .command('plan')
  .description('plan a stepped first test: where to shut off, what to look at, what lets it go on')
  .argument('<case>', 'case file (YAML)')
  .option('--tub <name>', 'tub that is in the car; the pick when left out')
  .option('--tyre <name>', 'tyre that runs; the one that decides the pick when left out')
  .option('--height <inches>', 'top height at which it stands; the pick when left out')
  .option('--results <folder>', 'folder that holds the results folders')
  .option('--draws <number>', 'simulated runs for the pick')
  .option('--set <path=value>', 'value in place of the file’s; may be repeated', repeated)
  .action(async (file, options) => {
    const words = [
      'plan',
      file,
      ...given('tub', options.tub),
      ...given('tyre', options.tyre),
      ...given('height', options.height),
      ...given('results', options.results),
      ...given('draws', options.draws),
      ...settings(options.set),
    ];
    process.exit(await hand('learner', words));
  });

program
  .command('state')
  .description('show one state of a case with every intermediate value, to check by hand')
  .argument('<case>', 'case file (YAML)')
  .option('--tyre <name>', 'tyre of the case')
  .option('--tub <name>', 'tub of the case')
  .option('--moment <name>', 'moment of the run, such as finish or launch')
  .option('--height <inches>', 'top height above the track')
  .option(
    '--set <path=value>',
    'value in place of the file’s, such as "run.trapSpeed=~230 mph"; may be repeated',
    repeated,
  )
  .option('--json', 'SI values as JSON')
  .action(async (file, options) => {
    const words = [
      'state',
      file,
      ...given('tyre', options.tyre),
      ...given('tub', options.tub),
      ...given('moment', options.moment),
      ...given('height', options.height),
      ...settings(options.set),
      ...(options.json ? ['--json'] : []),
    ];
    process.exit(await hand('reporter', words));
  });

await program.parseAsync();
