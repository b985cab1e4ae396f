#!/usr/bin/env node
import { Command } from '@commander-js/extra-typings';
import { hand, start } from './start.ts';

const BAD_INPUT = 2;
const TOO_FEW = 3;

/** Adds an option's words when it was given. */
const given = (name: string, value: string | undefined): string[] =>
  value === undefined ? [] : [`--${name}`, value];

/** Passes `--set` on, as often as it was given. */
const repeated = (words: string, before: string[] = []): string[] => [...before, words];
const settings = (words: readonly string[] = []): string[] => words.flatMap((word) => ['--set', word]);

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

Exit codes: 0 done; 1 a fault of the program; 2 something in the input to mend; 3 too few draws for the accepted risk.

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
  .action((file, options) => {
    const simulated = start(
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
    const reported = start('reporter', ['tables', place, ...(options.json ? ['--json'] : [])], false);
    // The page to carry to the car; it begins at the pick just made.
    start('bench', [file, ...given('results', options.results), ...settings(options.set), '--no-open'], true);
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
  .action((file, options) => {
    const words = [
      file,
      ...given('results', options.results),
      ...given('out', options.out),
      ...settings(options.set),
      ...(options.open ? [] : ['--no-open']),
    ];
    process.exit(start('bench', words, false).code);
  });

/** Runs a study and prints what it found. */
function study(words: readonly string[], json: boolean | undefined): never {
  const simulated = start('montecarlo', words, true);
  if (simulated.code !== 0 && simulated.code !== TOO_FEW) process.exit(simulated.code);
  const place = simulated.output.trim();
  const reported = start('reporter', ['study', place, ...(json ? ['--json'] : [])], false);
  if (!json && reported.code === 0) process.stdout.write(`  Written to ${place}\n`);
  process.exit(reported.code === 0 ? simulated.code : reported.code);
}

/** Options that every study knows. */
interface StudyOptions {
  results?: string | undefined;
  draws?: string | undefined;
  seed?: string | undefined;
  workers?: string | undefined;
  set?: string[] | undefined;
}

const studyWords = (options: StudyOptions): string[] => [
  ...given('results', options.results),
  ...given('draws', options.draws),
  ...given('seed', options.seed),
  ...given('workers', options.workers),
  ...settings(options.set),
];

const RESULTS = ['--results <folder>', 'folder that holds the results folders'] as const;
const STUDY_DRAWS = [
  '--draws <number>',
  'simulated runs of every setup; left out: as many as the accepted risk asks for',
] as const;
const SEED = ['--seed <number>', 'seed of the random numbers, in place of the case’s'] as const;
const WORKERS = ['--workers <number>', 'worker threads; the answer does not depend on them'] as const;
const SET = [
  '--set <path=value>',
  'value in place of the file’s, such as "run.trapSpeed=~230 mph"; may be repeated',
] as const;

program
  .command('sweep')
  .description('run a case over values of its inputs: what moves the height, and by how many sixteenths')
  .argument('<case>', 'case file (YAML)')
  .option(
    '--vary <path=values>',
    'what to vary: "run.trapSpeed = 200 mph to 240 mph by 10 mph" or "tyres[0].coldPressure = 5 psi, 6 psi"; also tub, tyre and topHeight; may be repeated',
    repeated,
  )
  .option('--file <sweep>', 'sweep file (YAML) with mode and sweep, a list of what to vary')
  .option('--mode <grid|one-at-a-time>', 'every combination (as it is), or one input at a time')
  .option(...SET, repeated)
  .option(...RESULTS)
  .option(...STUDY_DRAWS)
  .option(...SEED)
  .option(...WORKERS)
  .option('--shard <i/n>', 'work out one of n shards only, on this machine, and keep it for tubgap merge')
  .option('--shards <number>', 'run in so many shards; a sweep that was cut goes on from those that are done')
  .option('--queue', 'have the shards worked out by every tubgap work that shares the queue at REDIS_URL')
  .option('--json', 'print everything that was found as JSON, SI')
  .action((file, options) => {
    const words = [
      'sweep',
      file,
      ...(options.vary ?? []).flatMap((one) => ['--vary', one]),
      ...given('file', options.file),
      ...given('mode', options.mode),
      ...given('shards', options.shards),
      ...(options.queue ? ['--queue'] : []),
      ...studyWords(options),
    ];
    if (options.shard === undefined) study(words, options.json);
    process.exit(start('montecarlo', [...words, '--shard', options.shard], false).code);
  });

program
  .command('merge')
  .description('put the shards of a sweep together: the same results as if it had been run in one')
  .argument('<folders...>', 'folder of shards; several when the machines share no disk')
  .option('--results <folder>', 'folder that holds the results folders; beside the shards when left out')
  .option('--json', 'print everything that was found as JSON, SI')
  .action((folders, options) =>
    study(['merge', ...folders, ...given('results', options.results)], options.json),
  );

program
  .command('work')
  .description('work out shards of whatever sweeps wait in the queue at REDIS_URL; start it on any machine')
  .option('--workers <number>', 'worker threads, a shard each; as many as there are cores when left out')
  .option('--leave-after <seconds>', 'end when nothing has come for so long; never when left out')
  .option('--longest <minutes>', 'what a shard may take before it is given up; 360 when left out')
  .action(async (options) => {
    const words = [
      'work',
      ...given('workers', options.workers),
      ...given('leave-after', options.leaveAfter),
      ...given('longest', options.longest),
    ];
    process.exit(await hand('montecarlo', words));
  });

program
  .command('queue')
  .description('what waits, runs and failed in the queue at REDIS_URL, and how many workers there are')
  .option('--cancel <key>', 'take a sweep out of the queue, by the key that this command shows')
  .action((options) => {
    process.exit(start('montecarlo', ['queue', ...given('cancel', options.cancel)], false).code);
  });

program
  .command('compare')
  .description('which tyre fits which tub at which height; or, with another setup, setups side by side')
  .argument('<case>', 'case file (YAML)')
  .option('--against <case>', 'case file of another setup')
  .option('--set <path=value>', 'the other setup has this value; may be repeated', repeated)
  .option(
    '--ends <path=low,high>',
    'both ends of an input, each a setup of its own; may be repeated',
    repeated,
  )
  .option(
    '--wheelbase <shortest,longest>',
    'both ends of the wheelbase adjustment, such as "107 in, 109 in": the axle moves, the tub stays on the body',
  )
  .option('--cars <number>', 'simulated cars for the season, without another setup')
  .option(...RESULTS)
  .option(...STUDY_DRAWS)
  .option(...SEED)
  .option(...WORKERS)
  .option('--json', 'print everything that was found as JSON, SI')
  .action((file, options) => {
    study(
      [
        'compare',
        file,
        ...given('against', options.against),
        ...(options.ends ?? []).flatMap((words) => ['--ends', words]),
        ...given('wheelbase', options.wheelbase),
        ...given('cars', options.cars),
        ...studyWords(options),
      ],
      options.json,
    );
  });

program
  .command('place')
  .description('the best fore-aft place of every tub, and what an inch of misplacement costs')
  .argument('<case>', 'case file (YAML)')
  .option(...SET, repeated)
  .option(...RESULTS)
  .option(...STUDY_DRAWS)
  .option(...SEED)
  .option(...WORKERS)
  .option('--json', 'print everything that was found as JSON, SI')
  .action((file, options) => {
    study(['place', file, ...studyWords(options)], options.json);
  });

program
  .command('report')
  .description('write the tables and papers of a finished results folder again and print the decision')
  .argument('<folder>', 'results folder')
  .option('--json', 'print the picks as JSON')
  .action((folder, options) => {
    process.exit(start('reporter', ['tables', folder, ...(options.json ? ['--json'] : [])], false).code);
  });

program
  .command('year')
  .description('write an overview of several cars: shop-year.csv and shop-year.html')
  .argument('<folders...>', 'results folders')
  .option('--to <folder>', 'folder to write into; the current one when left out')
  .action((folders, options) => {
    process.exit(start('reporter', ['year', ...folders, ...given('to', options.to)], false).code);
  });

program
  .command('revision')
  .description('say what changed from one result of a case to another, and what that asks for')
  .argument('<old>', 'results folder of the old result')
  .argument('<new>', 'results folder of the new result')
  .action((before, after) => {
    process.exit(start('reporter', ['revision', before, after], false).code);
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
  .action((file, options) => {
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
    process.exit(start('learner', words, false).code);
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
  .action((file, options) => {
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
    process.exit(start('learner', words, false).code);
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
  .action((file, options) => {
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
    process.exit(start('reporter', words, false).code);
  });

await program.parseAsync();
