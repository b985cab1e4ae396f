import { onStop, stopCode } from '@tubgap/results';
import { type Job, type JobJson, UnrecoverableError, Worker } from 'bullmq';
import { MADE_BY } from '../options.ts';
import { failureOf, openShardPool } from '../shards/executor.ts';
import { type AnyShard, type Order, partedOf } from '../shards/kinds.ts';
import { connect, soon } from './connection.ts';
import {
  bytesName,
  inputReason,
  KEEP,
  orderName,
  PREFIX,
  QUEUE,
  readJob,
  readReason,
  STALL,
  storedOrder,
} from './jobs.ts';
import { ordersOfOthers } from './queue-state.ts';

/** How a worker is to work. */
export interface WorkerOptions {
  threads: number;
  /** Seconds without work after which it leaves; undefined: it stays. */
  leaveAfter: number | undefined;
  /** Minutes that a shard may take. */
  longest: number;
}

/** Orders that a worker keeps at hand at most. */
const MOST_ORDERS = 8;

/** A worker to whom what is no JSON comes as no job, to be refused like any other that is none. */
class ShardWorker extends Worker {
  protected override createJob(data: JobJson, id: string): Job {
    try {
      return super.createJob(data, id);
    } catch {
      return super.createJob({ ...data, data: 'null' }, id);
    }
  }
}

/** Works out shards of the queue at REDIS_URL until it is told to leave. @throws StudyFault when no Redis answers */
export async function runWorker({ threads, leaveAfter, longest }: WorkerOptions): Promise<void> {
  const { redis, shown } = await connect();
  const pool = openShardPool(threads);
  const orders = new Map<string, Order>();
  const say = (text: string): void => void process.stderr.write(`${text}\n`);

  const orderOf = async (key: string): Promise<Order> => {
    const there = orders.get(key);
    if (there !== undefined) return there;
    const text = await redis.get(orderName(key));
    if (text === null) throw new Error('its sweep is no longer in the queue');
    const order = storedOrder(key, text);
    if (order === undefined)
      throw new UnrecoverableError('its sweep was changed in the queue, or is of another version');
    if (order.head.madeBy !== MADE_BY) {
      throw new UnrecoverableError(
        `the sweep is of ${order.head.madeBy}, a worker is ${MADE_BY}; use one build everywhere`,
      );
    }
    if (orders.size >= MOST_ORDERS) orders.delete(orders.keys().next().value!);
    orders.set(key, order);
    return order;
  };

  let busy = 0;
  let idleSince = performance.now();
  const work = async (data: unknown): Promise<unknown> => {
    const job = readJob(data);
    if (job === undefined)
      throw new UnrecoverableError('the job is of another layout or version; nothing was run');
    const { key, shard } = job;
    const order = await orderOf(key);
    if (shard > order.shards) throw new UnrecoverableError(`there is no shard ${shard} of ${order.shards}`);
    const start = performance.now();
    let found: AnyShard;
    try {
      found = await pool.run({ key, order, shard }, { signal: AbortSignal.timeout(longest * 60_000) });
    } catch (error) {
      if ((error as Error).name === 'AbortError') {
        throw new UnrecoverableError(`took longer than ${longest} minutes`);
      }
      const { reason, input } = failureOf(shard, error);
      throw input ? new UnrecoverableError(inputReason(reason)) : new Error(reason);
    }
    const parted = partedOf(order, found);
    if ('wrong' in parted) throw new Error(`what was worked out ${parted.wrong}`);
    if (parted.bytes !== undefined) {
      await redis.set(bytesName(key, shard), Buffer.from(parted.bytes), 'EX', KEEP);
    }
    const seconds = ((performance.now() - start) / 1000).toFixed(1);
    say(`${order.head.case.name}: shard ${shard} of ${order.shards} in ${seconds} s`);
    return parted.record;
  };

  const worker = new ShardWorker(
    QUEUE,
    async (job) => {
      busy++;
      try {
        return await work(job.data);
      } catch (error) {
        say(`shard ${String(job.id)}: ${readReason((error as Error).message).reason}`);
        throw error;
      } finally {
        busy--;
        idleSince = performance.now();
      }
    },
    { connection: redis, prefix: PREFIX, concurrency: threads, ...STALL },
  );
  worker.on('error', () => {});
  say(`At ${shown} with ${threads} ${threads === 1 ? 'thread' : 'threads'}: ${MADE_BY}.`);
  for (const { name, madeBy } of await ordersOfOthers(redis)) {
    say(
      `The sweep ${name} waits for workers of ${madeBy}; this one is not given it. Use one build everywhere.`,
    );
  }

  await new Promise<void>((resolve) => {
    const leave = (): void => {
      if (busy > 0) say('Leaving when the shards in hand are done; once more leaves at once.');
      void worker.close().then(resolve, resolve);
    };
    onStop((signal, again) => {
      // Asked twice, it goes at once; its shards pass to others.
      if (again) process.exit(stopCode(signal));
      leave();
    });
    if (leaveAfter !== undefined) {
      const timer = setInterval(() => {
        if (busy > 0 || performance.now() - idleSince < leaveAfter * 1000) return;
        clearInterval(timer);
        leave();
      }, 250);
    }
  });
  redis.disconnect();
  await soon(pool.destroy());
}
