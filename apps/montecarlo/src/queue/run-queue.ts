import { DONE } from '@tubgap/casefile/command-line';
import { defaultWorkers } from '../pool.ts';
import { StudyFault } from '../study/fault.ts';
import { connect } from './connection.ts';
import { cancelSweep, queueLines } from './queue-state.ts';
import { runWorker, type WorkerOptions } from './queue-worker.ts';

/** Works out shards of the queue until it is told to leave. @returns exit code @throws StudyFault */
export async function runWork({
  workers = defaultWorkers(),
  leaveAfter,
  longest,
}: Omit<WorkerOptions, 'threads'> & { workers: number | undefined }): Promise<number> {
  await runWorker({ threads: workers, leaveAfter, longest });
  return DONE;
}

/** Prints what is in the queue, or takes a sweep out of it. @returns exit code @throws StudyFault */
export async function runQueue(cancel: string | undefined): Promise<number> {
  const { redis } = await connect();
  const lines = cancel === undefined ? await queueLines(redis) : await cancelSweep(redis, cancel);
  if (lines === undefined) {
    throw new StudyFault([`No sweep in the queue has the key "${cancel}"; tubgap queue shows them.`]);
  }
  process.stdout.write(`${lines.join('\n')}\n`);
  redis.disconnect();
  return DONE;
}
