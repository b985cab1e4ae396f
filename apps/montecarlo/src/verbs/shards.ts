import type { Command } from '@commander-js/extra-typings';
import { conclude, example, NAME, WORKERS, wholeNumber } from '@tubgap/casefile/command-line';
import type { WrittenHandler } from '../written.ts';

/** Minutes that a shard may take when nothing is said. */
const LONGEST = 360;

/** The verb that makes one sweep's results of its shards. @param telling  what is done with its results */
export const merge = (telling: WrittenHandler) => (program: Command) =>
  program
    .command('merge')
    .description('put the shards of a sweep together: the same results as if it had been run in one')
    .argument(
      '<folders...>',
      'folder of shards, as tubgap sweep --shard wrote it; several when the machines share no disk',
    )
    .option('--results <folder>', 'folder in which results are filed; left out: beside the shards')
    .option(
      NAME[0],
      'name of the results in that folder; left out: that of the first folder of shards',
      NAME[2],
    )
    .addHelpText('after', example('tubgap merge /shared/mycar-sweep-shards'))
    .action((folders, options, command) =>
      conclude(
        folders.join(' '),
        async () => {
          const { runMerge } = await import('../shards/run-merge.ts');
          return runMerge(folders, options, (written) => telling(written, command.opts()));
        },
        { kept: 'Nothing was merged.', ...command.opts() },
      ),
    );

/** The verb that works out shards of others' sweeps. */
export const work = (program: Command) =>
  program
    .command('work')
    .description(
      'work out shards of whatever sweeps wait in the queue; start it on every machine that shall help',
    )
    .option('--workers <number>', 'threads, each at a shard of its own; left out: one a core', WORKERS[2])
    .option(
      '--leave-after <seconds>',
      'end when nothing has come for so long; left out: never',
      wholeNumber(1, 1_000_000),
    )
    .option(
      '--longest <minutes>',
      `what a shard may take before it is given up; left out: ${LONGEST}`,
      wholeNumber(1, 100_000),
    )
    .addHelpText(
      'after',
      example(
        'tubgap work',
        'REDIS_URL=rediss://:PASSWORD@host:6379 tubgap work --leave-after 600     (left out: redis://127.0.0.1:6379)',
      ),
    )
    .action(({ workers, leaveAfter, longest = LONGEST }) =>
      conclude('work', async () => {
        const { runWork } = await import('../queue/run-queue.ts');
        return runWork({ workers, leaveAfter, longest });
      }),
    );

/** The verb that shows the queue. */
export const queue = (program: Command) =>
  program
    .command('queue')
    .description('show what waits, runs and failed in the queue, and how many workers there are')
    .option(
      '--cancel <key>',
      'take a sweep out of the queue, by the key that this command shows; left out: only show',
    )
    .addHelpText('after', example('tubgap queue'))
    .action(({ cancel }) =>
      conclude('queue', async () => {
        const { runQueue } = await import('../queue/run-queue.ts');
        return runQueue(cancel);
      }),
    );
