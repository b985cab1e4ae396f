import { Piscina } from 'piscina';
import type { AnyShard, Order } from './kinds.ts';
import type { SweepOrder } from './order.ts';
import type { Shard } from './shard.ts';
import type { ShardTask } from './shard-thread.ts';

/** Why a shard could not be worked out. */
export interface Failure {
  shard: number;
  reason: string;
  /** Whether what was asked for is at fault, not a machine or this program. */
  input: boolean;
}

/** Gets each shard that was asked for once, done or failed. */
export interface ExecutorReport<S extends AnyShard = Shard> {
  done: (shard: S) => void;
  failed: (failure: Failure) => void;
}

/** Whoever works out shards: threads of this machine, or workers of any machine behind a queue. */
export interface Executor<O extends Order = SweepOrder, S extends AnyShard = Shard> {
  /** Works out shards in whatever order; ends when each was reported, or when stopped. */
  work: (order: O, key: string, shards: readonly number[], report: ExecutorReport<S>) => Promise<void>;
  /** Lets go of what was not begun. */
  stop: () => Promise<void>;
  close: () => Promise<void>;
}

/** Memory of a thread, MB: a shard that asks for more fails alone, and does not take its machine with it. */
const MOST_MEMORY = 2048;

/** Threads that each work out whole shards. */
export const openShardPool = (threads: number): Piscina<ShardTask, AnyShard> =>
  new Piscina({
    filename: new URL('./shard-thread.js', import.meta.url).href,
    minThreads: threads,
    maxThreads: threads,
    resourceLimits: { maxOldGenerationSizeMb: MOST_MEMORY },
  });

/** What a thrown error says of a shard. */
export const failureOf = (shard: number, error: unknown): Failure => ({
  shard,
  reason: (error instanceof Error ? error.message : String(error)).slice(0, 500),
  input: error instanceof RangeError,
});

/** An executor of this machine's own threads. */
export function localExecutor(threads: number): Executor {
  const pool = openShardPool(threads);
  let stopped = false;
  return {
    work: async (order, key, shards, report) => {
      let next = 0;
      const lane = async (): Promise<void> => {
        while (!stopped && next < shards.length) {
          const shard = shards[next++]!;
          let found: Shard;
          try {
            found = (await pool.run({ key, order, shard })) as Shard;
          } catch (error) {
            if (!stopped) report.failed(failureOf(shard, error));
            continue;
          }
          if (!stopped) report.done(found);
        }
      };
      await Promise.all(Array.from({ length: threads }, lane));
    },
    stop: async () => {
      stopped = true;
      await pool.destroy();
    },
    close: () => pool.destroy(),
  };
}
