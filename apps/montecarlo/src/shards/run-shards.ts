import { BAD_INPUT, FAULT } from '@tubgap/casefile/command-line';
import { onStop, type StopSignal, stopCode } from '@tubgap/results';
import type { Executor, Failure } from './executor.ts';
import type { AnyShard, Order } from './kinds.ts';
import { gatherShards } from './merge.ts';
import { pointTotal, type SweepPoint, shardRange } from './order.ts';
import type { Shard } from './shard.ts';
import { keepShard, readableShards, type ShardFolder } from './shard-folder.ts';

/** Shards that could not be worked out; all others are kept. */
export class ShardsFailed extends Error {
  /** Whether what was asked for is at fault, or a machine or this program. */
  readonly exitCode: number;

  /** @param nameOf  what a shard holds, in words */
  constructor(shards: number, failures: readonly Failure[], nameOf: (shard: number) => string) {
    super(
      [
        `${failures.length} of ${shards} shards failed:`,
        ...failures
          .toSorted((a, b) => a.shard - b.shard)
          .map(({ shard, reason }) => `  shard ${shard} (${nameOf(shard)}): ${reason}`),
        'No results were written. The other shards are kept: mend what is named, and run the same command again.',
      ].join('\n'),
    );
    this.exitCode = failures.every(({ input }) => input) ? BAD_INPUT : FAULT;
  }
}

/** Said when a run was stopped: by hand here, or elsewhere. */
export class ShardsStopped extends Error {
  readonly exitCode: number;

  constructor(message: string, exitCode: number) {
    super(message);
    this.exitCode = exitCode;
  }
}

/** What is worked through: an order, those of its shards that are wanted, and who keeps each. */
interface Wanted<O extends Order, S extends AnyShard> {
  order: O;
  key: string;
  wanted: readonly number[];
  keep: (shard: S) => void;
  nameOf: (shard: number) => string;
}

/**
 * Has an executor work out shards, and keeps each as it comes: whatever a queue loses is asked for again.
 * @param tell  told as shards come in: part done of all of the order's, 0 to 1
 * @throws ShardsFailed, ShardsStopped, and what keeping throws
 */
export async function workThrough<O extends Order, S extends AnyShard>(
  executor: Executor<O, S>,
  { order, key, wanted, keep, nameOf }: Wanted<O, S>,
  tell: (done: number) => void,
): Promise<void> {
  const failures: Failure[] = [];
  let done = order.shards - wanted.length;
  let stopped: StopSignal | undefined;
  const release = onStop((signal, again) => {
    if (again) process.exit(stopCode(signal));
    stopped = signal;
    void executor.stop();
  });
  try {
    await executor.work(order, key, wanted, {
      done: (shard) => {
        keep(shard);
        done++;
        tell(done / order.shards);
      },
      failed: (failure) => failures.push(failure),
    });
  } finally {
    release();
    await executor.close();
  }
  // An executor that ends before all is done was stopped elsewhere.
  if (stopped !== undefined || done + failures.length < order.shards) {
    throw new ShardsStopped(
      `Stopped: ${done} of ${order.shards} shards are done and kept. The same command goes on from there.`,
      stopCode(stopped ?? 'SIGINT'),
    );
  }
  if (failures.length > 0) throw new ShardsFailed(order.shards, failures, nameOf);
}

/**
 * Has an executor work out all shards of a sweep that its folder does not hold yet. The folder owns the results.
 * @param tell  told as shards come in: part done, 0 to 1
 * @throws ShardsFailed, ShardsStopped, ResultsError
 */
export async function runShards(
  folder: ShardFolder,
  executor: Executor,
  tell: (done: number) => void,
): Promise<SweepPoint[]> {
  const { order, key } = folder;
  const sound = readableShards(folder);
  if (sound.size > 0) {
    process.stderr.write(`Went on from ${sound.size} of ${order.shards} shards that were done.\n`);
  }
  const wanted = Array.from({ length: order.shards }, (_, i) => i + 1).filter((shard) => !sound.has(shard));
  const nameOf = (shard: number): string => {
    const [first, end] = shardRange(pointTotal(order), shard, order.shards);
    return first === end - 1 ? `point ${first}` : `points ${first} to ${end - 1}`;
  };
  const keep = (shard: Shard): void => void keepShard(folder, shard);
  await workThrough(executor, { order, key, wanted, keep, nameOf }, tell);
  return gatherShards([folder]);
}
