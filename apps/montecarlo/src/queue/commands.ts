import type { Command } from '@commander-js/extra-typings';
import { wholeNumber } from '@tubgap/casefile/command-line';
import { BAD_INPUT, stop } from '../options.ts';
import { defaultWorkers } from '../pool.ts';
import { StudyFault } from '../study/fault.ts';

/** Minutes that a shard may take when nothing is said. */
const LONGEST = 360;

/** Ends with what went wrong at the queue, in words. */
function stopQueue(error: unknown): never {
  if (error instanceof StudyFault) stop(error.lines.join('\n'), BAD_INPUT);
  stop(`this program failed (${String(error).slice(0, 300)}); please report it.`, 1);
}

/** Adds the commands of the queue, whose client is loaded when one of them runs: it would hold up every other command. */
export function addQueueCommands(program: Command): void {
  program
    .command('work')
    .description('work out shards of the sweeps that wait in the queue at REDIS_URL')
    .option('--workers <number>', 'worker threads, a shard each', wholeNumber(1, 256))
    .option('--leave-after <seconds>', 'end when nothing has come for so long', wholeNumber(1, 1_000_000))
    .option('--longest <minutes>', 'what a shard may take', wholeNumber(1, 100_000), LONGEST)
    .action(async ({ workers, leaveAfter, longest }) => {
      try {
        const { runWorker } = await import('./queue-worker.ts');
        await runWorker({ threads: workers ?? defaultWorkers(), leaveAfter, longest });
      } catch (error) {
        stopQueue(error);
      }
    });
  program
    .command('queue')
    .description('what waits, runs and failed in the queue at REDIS_URL')
    .option('--cancel <key>', 'take a sweep out of the queue')
    .action(async ({ cancel }) => {
      try {
        const { connect } = await import('./connection.ts');
        const { cancelSweep, queueLines } = await import('./queue-state.ts');
        const { redis } = await connect();
        const lines = cancel === undefined ? await queueLines(redis) : await cancelSweep(redis, cancel);
        if (lines === undefined) {
          throw new StudyFault([`No sweep in the queue has the key "${cancel}"; tubgap queue shows them.`]);
        }
        process.stdout.write(`${lines.join('\n')}\n`);
        redis.disconnect();
        process.exit(0);
      } catch (error) {
        stopQueue(error);
      }
    });
}
