import type { Command } from '@commander-js/extra-typings';
import { TOO_FEW } from './exit-codes.ts';
import { hand, start } from './start.ts';
import { given, repeated, settings } from './words.ts';

/** Runs a study and prints what it found. */
async function study(words: readonly string[], json: boolean | undefined): Promise<never> {
  const simulated = await start('montecarlo', words, true);
  if (simulated.code !== 0 && simulated.code !== TOO_FEW) process.exit(simulated.code);
  const place = simulated.output.trim();
  const reported = await start('reporter', ['study', place, ...(json ? ['--json'] : [])], false);
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

/** Adds the verbs that run a case more than once, and those that share a sweep out. */
export function addStudyVerbs(program: Command): void {
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
    .option(
      '--shards <number>',
      'run in so many shards; a sweep that was cut goes on from those that are done',
    )
    .option('--queue', 'have the shards worked out by every tubgap work that shares the queue at REDIS_URL')
    .option('--json', 'print everything that was found as JSON, SI')
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
    .action(async (options) => {
      process.exit(await hand('montecarlo', ['queue', ...given('cancel', options.cancel)]));
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
    .description('the best fore-aft place of every tub, and what an inch of misplacement costs')
    .argument('<case>', 'case file (YAML)')
    .option(...SET, repeated)
    .option(...RESULTS)
    .option(...STUDY_DRAWS)
    .option(...SEED)
    .option(...WORKERS)
    .option('--json', 'print everything that was found as JSON, SI')
    .action(async (file, options) => {
      await study(['place', file, ...studyWords(options)], options.json);
    });
}
