#!/usr/bin/env node
import { dirname, join } from 'node:path';
import { Command } from '@commander-js/extra-typings';
import { outliveOutput } from '@tubgap/casefile/output';
import { BAD_INPUT, TOO_FEW } from './exit-codes.ts';
import { hand, placeIn, start } from './start.ts';
import { addStudyVerbs } from './study-verbs.ts';
import { example, given, RESULTS, repeated, SEED, SET, settings, WORKERS } from './words.ts';

outliveOutput();

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
  tubgap judge mycar.yaml --tub street-42 --height "38 5/8 in"   whether the tub that stands is within what is accepted
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
4 the tub that was judged is not within the accepted risk; 130 or 143 stopped by hand (128 and the signal's number).

Tyre contact at speed can kill. The sanctioning body's rules, the tyre maker's limits and a qualified chassis builder
come first.`,
  );

program
  .command('pick')
  .description(
    'simulate a case, write its results folder and print which tub to build, how high, with which risk',
  )
  .argument('<case>', 'case file (YAML)')
  .option(...RESULTS)
  .option('--draws <number>', 'simulated runs, 100,000,000 at most; left out: the case’s')
  .option('--cars <number>', 'simulated cars for the season risk; left out: the case’s')
  .option(...SEED)
  .option(...SET, repeated)
  .option(...WORKERS)
  .option('--json', 'print the picks as JSON; left out: in words')
  .addHelpText(
    'after',
    example(
      'tubgap pick mycar.yaml',
      'tubgap pick mycar.yaml --set "tyres[0].coldPressure=~7 psi" --results trials',
    ),
  )
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
    const place = placeIn(simulated);
    const reported = await start(
      'reporter',
      ['tables', ...(options.json ? ['--json'] : []), '--', place],
      false,
    );
    // The page to carry to the car begins at the pick just made, from the case as it was read for it: the file itself may
    // have been edited meanwhile.
    const copy = join(place, 'case', 'case.yaml');
    await start('bench', [copy, '--results', dirname(place), ...settings(options.set), '--no-open'], true);
    if (!options.json && reported.code === 0) process.stdout.write(`  Written to ${place}\n`);
    process.exit(reported.code === 0 ? simulated.code : reported.code);
  });

program
  .command('judge')
  .description(
    'judge the tub that stands in the car: within what is accepted or not, with which risk, and what would mend it',
  )
  .argument('<case>', 'case file (YAML)')
  .option(
    '--tub <name>',
    'tub that stands in the car; left out: the as-built table’s, or the case’s only one',
  )
  .option(
    '--height <length>',
    'inside top of the tub above the track, such as "39 1/4 in"; left out: the as-built table’s',
  )
  .option(
    '--centre <length>',
    'centre of its arc ahead of the axle, "-1/2 in" is behind; left out: the as-built table’s, else the case’s',
  )
  .option('--measured <folder>', 'folder of measurements with as-built.csv; left out: none is read')
  .option('--draws <number>', 'simulated runs, 100,000,000 at most; left out: the case’s')
  .option('--cars <number>', 'simulated cars for the season risk; left out: the case’s')
  .option(...SEED)
  .option(...SET, repeated)
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
  .action(async (file, options) => {
    const words = [
      'judge',
      file,
      ...given('tub', options.tub),
      ...given('height', options.height),
      ...given('centre', options.centre),
      ...given('measured', options.measured),
      ...given('draws', options.draws),
      ...given('cars', options.cars),
      ...given('seed', options.seed),
      ...given('workers', options.workers),
      ...settings(options.set),
      ...(options.json ? ['--json'] : []),
    ];
    process.exit(await hand('montecarlo', words));
  });

program
  .command('show')
  .description('write and open a page on which the tub can be dragged and the risk seen; it works offline')
  .argument('<case>', 'case file (YAML), or a results folder of a case, such as results/mycar')
  .option(...RESULTS)
  .option('--out <file>', 'file to write the page to; left out: at-the-car.html in the case’s results folder')
  .option(...SET, repeated)
  .option('--no-open', 'only write the page; left out: open it too, where that can be')
  .addHelpText('after', example('tubgap show mycar.yaml', 'tubgap show results/mycar'))
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
  .description('write the tables and papers of finished results again, and print the decision')
  .argument('<folder>', 'results folder of a case, such as results/mycar')
  .option('--json', 'print the picks as JSON; left out: in words')
  .addHelpText('after', example('tubgap report results/mycar'))
  .action(async (folder, options) => {
    process.exit(await hand('reporter', ['tables', ...(options.json ? ['--json'] : []), '--', folder]));
  });

program
  .command('year')
  .description('write an overview of several cars: shop-year.csv and shop-year.html')
  .argument('<folders...>', 'results folders of the cars, such as results/car-a')
  .option('--to <folder>', 'folder to write into; left out: the one you are in')
  .addHelpText('after', example('tubgap year results/car-a results/car-b'))
  .action(async (folders, options) => {
    process.exit(await hand('reporter', ['year', ...given('to', options.to), '--', ...folders]));
  });

program
  .command('revision')
  .description('say what changed from one result of a case to another, and what that asks for')
  .argument('<old>', 'results folder of the old result')
  .argument('<new>', 'results folder of the new result')
  .addHelpText('after', example('tubgap revision old/mycar results/mycar'))
  .action(async (before, after) => {
    process.exit(await hand('reporter', ['revision', '--', before, after]));
  });

program
  .command('learn')
  .description('learn from what the shop measured of its car: tape, scale, run logs, tell-tales, marks')
  .argument('<case>', 'case file (YAML)')
  .requiredOption('--measured <folder>', 'folder with the measurements as CSV files; must be given')
  .option(...RESULTS)
  .option('--draws <number>', 'simulated runs for before and after, from 4,096 on; left out: 40,960')
  .option('--cars <number>', 'simulated cars for the season risk before and after, from 64 on; left out: 600')
  .option(...SEED)
  .option(...SET, repeated)
  .addHelpText('after', example('tubgap learn mycar.yaml --measured measurements'))
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
  .description(
    'judge the tub in the car, then plan a stepped first test: where to shut off, what to look at, what lets it go on',
  )
  .argument('<case>', 'case file (YAML)')
  .option('--tub <name>', 'tub that is in the car; left out: the pick')
  .option('--tyre <name>', 'tyre that runs; left out: the one that asks for the most height')
  .option(
    '--height <inches>',
    'inside top of the tub above the track, such as "39 1/4 in"; left out: the pick’s',
  )
  .option(
    '--overrule <words>',
    'who plans for a tub that is not within the accepted risk, and why: it stands on the paper; left out: such a tub is refused',
  )
  .option(...RESULTS)
  .option('--draws <number>', 'simulated runs, from 4,096 on; left out: the case’s')
  .option(...SET, repeated)
  .addHelpText('after', example('tubgap plan mycar.yaml --tub street-42 --height "39 1/4 in"'))
  .action(async (file, options) => {
    const words = [
      'plan',
      file,
      ...given('tub', options.tub),
      ...given('tyre', options.tyre),
      ...given('height', options.height),
      ...given('overrule', options.overrule),
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
  .option('--tyre <name>', 'tyre of the case; left out: its first')
  .option('--tub <name>', 'tub of the case; left out: its first')
  .option(
    '--moment <name>',
    'burnout, launch, "gear change", middle, "grip lost", finish, "after the lift" or parachute; left out: finish',
  )
  .option(
    '--height <inches>',
    'inside top of the tub above the track, such as "39 1/4 in"; left out: the lowest that clears at rest, plus 6 in',
  )
  .option(...SET, repeated)
  .option('--json', 'print the values as JSON in SI; left out: as a sheet')
  .addHelpText('after', example('tubgap state mycar.yaml --tyre tall-slick --moment launch --height "40 in"'))
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
