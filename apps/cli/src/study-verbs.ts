import type { Command } from '@commander-js/extra-typings';
import { TOO_FEW } from './exit-codes.ts';
import { hand, placeIn, start } from './start.ts';
import { example, given, RESULTS, repeated, SEED, SET, settings, WORKERS } from './words.ts';

/** Runs a study and prints what it found. */
async function study(words: readonly string[], json: boolean | undefined): Promise<never> {
  const simulated = await start('montecarlo', words, true);
  if (simulated.code !== 0 && simulated.code !== TOO_FEW) process.exit(simulated.code);
  const place = placeIn(simulated);
  const reported = await start('reporter', ['study', ...(json ? ['--json'] : []), '--', place], false);
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

const STUDY_DRAWS = [
  '--draws <number>',
  'simulated runs of every setup; left out: as many as the accepted risk asks for',
] as const;
const JSON_WORDS = ['--json', 'print all that was found as JSON in SI; left out: in words'] as const;

/** Adds the verbs that run a case more than once, and those that share a sweep out. */
export function addStudyVerbs(program: Command): void {
  program
    .command('sweep')
    .description('run a case over values of its inputs: what moves the height, and by how many sixteenths')
    .argument('<case>', 'case file (YAML)')
    .option(
      '--vary <path=values>',
      'what to vary, here or in --file: "run.trapSpeed = 200 mph to 240 mph by 10 mph" or "tyres[0].coldPressure = 5 psi, 6 psi"; also tub, tyre and topHeight; may be repeated',
      repeated,
    )
    .option(
      '--file <sweep>',
      'sweep file (YAML) with mode and, under sweep, the list of what to vary; --vary adds to it',
    )
    .option(
      '--mode <grid|one-at-a-time>',
      'grid: every combination; one-at-a-time: each input alone; left out: as the sweep file says, or grid',
    )
    .option(...SET, repeated)
    .option(...RESULTS)
    .option(...STUDY_DRAWS)
    .option(...SEED)
    .option(...WORKERS)
    .option(
      '--shard <i/n>',
      'work out shard i of n only, on this machine, and keep it for tubgap merge; left out: all of the sweep',
    )
    .option(
      '--shards <number>',
      'run in so many shards, 1 to 10,000; the same command goes on from those that are done; left out: in one go',
    )
    .option(
      '--queue',
      'have the shards worked out by every tubgap work at the queue of REDIS_URL; left out: by this machine',
    )
    .option(...JSON_WORDS)
    .addHelpText(
      'after',
      example(
        'tubgap sweep mycar.yaml --vary "run.trapSpeed = 210 mph to 238 mph by 7 mph"',
        'tubgap sweep mycar.yaml --file sweep.yaml --shards 40',
      ),
    )
    .action(async (file, options) => {
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
      if (options.shard === undefined) return study(words, options.json);
      process.exit(await hand('montecarlo', [...words, '--shard', options.shard]));
    });

  program
    .command('merge')
    .description('put the shards of a sweep together: the same results as if it had been run in one')
    .argument(
      '<folders...>',
      'folder of shards, as tubgap sweep --shard wrote it; several when the machines share no disk',
    )
    .option('--results <folder>', 'folder in which results are filed; left out: beside the shards')
    .option(...JSON_WORDS)
    .addHelpText('after', example('tubgap merge /shared/mycar-sweep-shards'))
    .action((folders, options) =>
      study(['merge', ...folders, ...given('results', options.results)], options.json),
    );

  program
    .command('work')
    .description(
      'work out shards of whatever sweeps wait in the queue; start it on every machine that shall help',
    )
    .option('--workers <number>', 'threads, each at a shard of its own; left out: one a core')
    .option('--leave-after <seconds>', 'end when nothing has come for so long; left out: never')
    .option('--longest <minutes>', 'what a shard may take before it is given up; left out: 360')
    .addHelpText(
      'after',
      example(
        'tubgap work',
        'REDIS_URL=rediss://:PASSWORD@host:6379 tubgap work --leave-after 600     (left out: redis://127.0.0.1:6379)',
      ),
    )
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
    .description('show what waits, runs and failed in the queue, and how many workers there are')
    .option(
      '--cancel <key>',
      'take a sweep out of the queue, by the key that this command shows; left out: only show',
    )
    .addHelpText('after', example('tubgap queue'))
    .action(async (options) => {
      process.exit(await hand('montecarlo', ['queue', ...given('cancel', options.cancel)]));
    });

  program
    .command('compare')
    .description(
      'say which tyre fits which tub at which height; or, with another setup, put setups side by side',
    )
    .argument('<case>', 'case file (YAML)')
    .option(
      '--against <case>',
      'case file of another setup; left out: the case itself with --set, or its tyres one by one',
    )
    .option(
      '--set <path=value>',
      'value of the other setup, such as "suspension.bumpTravel=~1.4 in" (~ keeps the spread); may be repeated',
      repeated,
    )
    .option(
      '--ends <path=low,high>',
      'both ends of an input, each a setup of its own, such as "tyres[0].coldPressure = 5 psi, 7 psi"; may be repeated',
      repeated,
    )
    .option(
      '--wheelbase <shortest,longest>',
      'both ends of the wheelbase adjustment, such as "107 in, 109 in": the axle moves, the tub stays on the body',
    )
    .option(
      '--cars <number>',
      'simulated cars for the season risk, where no other setup is given; left out: the case’s',
    )
    .option(...RESULTS)
    .option(...STUDY_DRAWS)
    .option(...SEED)
    .option(...WORKERS)
    .option(...JSON_WORDS)
    .addHelpText(
      'after',
      example(
        'tubgap compare mycar.yaml',
        'tubgap compare mycar.yaml --set "suspension.bumpTravel=~1.4 in"',
        'tubgap compare mycar.yaml --against othercar.yaml',
      ),
    )
    .action(async (file, options) => {
      await study(
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
    .description('find the best fore-aft place of every tub, and what an inch of misplacement costs')
    .argument('<case>', 'case file (YAML)')
    .option(...SET, repeated)
    .option(...RESULTS)
    .option(...STUDY_DRAWS)
    .option(...SEED)
    .option(...WORKERS)
    .option(...JSON_WORDS)
    .addHelpText('after', example('tubgap place mycar.yaml'))
    .action(async (file, options) => {
      await study(['place', file, ...studyWords(options)], options.json);
    });
}
