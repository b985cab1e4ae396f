import { Queue } from 'bullmq';
import type { Redis } from 'ioredis';
import { cancelName, jobStem, ORDERS, orderName, PREFIX, QUEUE, readReason, storedOrder } from './jobs.ts';

const STATES = ['waiting', 'delayed', 'active', 'completed', 'failed'] as const;
const WORDS: Readonly<Record<(typeof STATES)[number], string>> = {
  waiting: 'waiting',
  delayed: 'to be tried again',
  active: 'running',
  completed: 'done, not yet fetched',
  failed: 'failed',
};

async function orderKeys(redis: Redis): Promise<string[]> {
  const keys: string[] = [];
  for await (const some of redis.scanStream({ match: `${ORDERS}*`, count: 100 })) {
    keys.push(...(some as string[]).map((name) => name.slice(ORDERS.length)));
  }
  return [...new Set(keys)].toSorted();
}

/** What is in the queue, in lines. */
export async function queueLines(redis: Redis): Promise<string[]> {
  const queue = new Queue(QUEUE, { connection: redis, prefix: PREFIX });
  const workers = await queue.getWorkersCount();
  const lines = [`${workers} ${workers === 1 ? 'worker' : 'workers'}`];
  const jobs = await Promise.all(STATES.map((state) => queue.getJobs([state])));
  for (const key of await orderKeys(redis)) {
    const order = storedOrder(key, (await redis.get(orderName(key))) ?? '');
    const name =
      order === undefined ? 'a sweep of another version' : `${order.head.case.name}, ${order.shards} shards`;
    const own = jobs.map((some) => some.filter((job) => job?.id?.startsWith(jobStem(key))));
    const counts = STATES.flatMap((state, s) =>
      own[s]!.length === 0 ? [] : [`${own[s]!.length} ${WORDS[state]}`],
    );
    lines.push(
      `${key.slice(0, 16)}  ${name}: ${counts.length === 0 ? 'none in the queue' : counts.join(', ')}`,
    );
    for (const job of own.at(-1)!) {
      lines.push(`  shard ${job.id!.slice(jobStem(key).length)}: ${readReason(job.failedReason).reason}`);
    }
  }
  return lines;
}

/**
 * Takes a sweep out of the queue; its coordinator ends and keeps what is done.
 * @param stem  key as it is shown, or the beginning of it
 * @returns lines that say what was done; undefined when there is no such sweep
 */
export async function cancelSweep(redis: Redis, stem: string): Promise<string[] | undefined> {
  const keys = (await orderKeys(redis)).filter((key) => stem.length >= 4 && key.startsWith(stem));
  const [key] = keys;
  if (key === undefined || keys.length > 1) return undefined;
  await redis.set(cancelName(key), '1', 'EX', 24 * 3600);
  const queue = new Queue(QUEUE, { connection: redis, prefix: PREFIX });
  let taken = 0;
  for (const state of STATES) {
    for (const job of await queue.getJobs([state])) {
      if (!job?.id?.startsWith(jobStem(key)) || state === 'active') continue;
      taken += await queue.remove(job.id);
    }
  }
  await redis.del(orderName(key));
  return [
    `${taken} shards taken out. Those that run are let run; what is done is kept where the sweep was started.`,
  ];
}
