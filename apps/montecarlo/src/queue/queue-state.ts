import { Queue } from 'bullmq';
import type { Redis } from 'ioredis';
import { MADE_BY } from '../options.ts';
import { isDraws, type Order } from '../shards/kinds.ts';
import {
  cancelName,
  jobStem,
  ORDERS,
  orderName,
  PREFIX,
  QUEUE,
  QUEUES,
  readReason,
  storedOrder,
} from './jobs.ts';
import { othersText, ownText, workersThere } from './workers.ts';

const STATES = ['waiting', 'delayed', 'active', 'completed', 'failed'] as const;
type State = (typeof STATES)[number];
const WORDS: Readonly<Record<State, string>> = {
  waiting: 'waiting',
  delayed: 'to be tried again',
  active: 'running',
  completed: 'done, not yet fetched',
  failed: 'failed',
};

/** A shard in one of the queues. Whatever its job holds is not looked at: it may be no job at all. */
interface Queued {
  queue: Queue;
  id: string;
  state: State;
}

/** Names in Redis that match a pattern, each without what comes before and after. */
async function namesIn(redis: Redis, before: string, after = ''): Promise<string[]> {
  const names = new Set<string>();
  for await (const some of redis.scanStream({ match: `${before}*${after}`, count: 100 })) {
    for (const name of some as string[]) names.add(name.slice(before.length, name.length - after.length));
  }
  return [...names].toSorted();
}

const orderKeys = (redis: Redis): Promise<string[]> => namesIn(redis, ORDERS);

/** All shards in the queues of all builds. */
async function allQueued(redis: Redis): Promise<Queued[]> {
  const named = (await namesIn(redis, `${PREFIX}:${QUEUES}`, ':meta')).map((rest) => QUEUES + rest);
  const queued: Queued[] = [];
  for (const name of new Set([...named, QUEUE])) {
    const queue = new Queue(name, { connection: redis, prefix: PREFIX });
    for (const state of STATES) {
      for (const id of await queue.getRanges([state], 0, -1)) queued.push({ queue, id, state });
    }
  }
  return queued;
}

const orderAt = async (redis: Redis, key: string): Promise<Order | undefined> =>
  storedOrder(key, (await redis.get(orderName(key))) ?? '');

/** Sweeps in the queue that another build has put there. */
export async function ordersOfOthers(redis: Redis): Promise<{ name: string; madeBy: string }[]> {
  const orders = await Promise.all((await orderKeys(redis)).map((key) => orderAt(redis, key)));
  return orders.flatMap((order) => {
    if (order === undefined) return [{ name: 'of another version', madeBy: 'that version' }];
    const { case: of, madeBy } = order.head;
    return madeBy === MADE_BY ? [] : [{ name: of.name, madeBy }];
  });
}

function orderText(order: Order | undefined): string {
  if (order === undefined) return 'a sweep of another version';
  const { case: of, madeBy } = order.head;
  const what = isDraws(order) ? 'files of draws' : 'shards';
  return `${of.name}, ${order.shards} ${what}${madeBy === MADE_BY ? '' : ` (${madeBy})`}`;
}

/** What is in the queue, in lines. */
export async function queueLines(redis: Redis): Promise<string[]> {
  const there = await workersThere(redis);
  const lines = there === undefined ? [] : [[ownText(there), othersText(there)].filter(Boolean).join('; ')];
  const queued = await allQueued(redis);
  for (const key of await orderKeys(redis)) {
    const own = queued.filter(({ id }) => id.startsWith(jobStem(key)));
    const counts = STATES.flatMap((state) => {
      const count = own.filter((one) => one.state === state).length;
      return count === 0 ? [] : [`${count} ${WORDS[state]}`];
    });
    const name = orderText(await orderAt(redis, key));
    lines.push(
      `${key.slice(0, 16)}  ${name}: ${counts.length === 0 ? 'none in the queue' : counts.join(', ')}`,
    );
    for (const { queue, id } of own.filter(({ state }) => state === 'failed')) {
      const reason = (await redis.hget(queue.toKey(id), 'failedReason')) ?? '';
      lines.push(`  shard ${id.slice(jobStem(key).length)}: ${readReason(reason).reason}`);
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
  let taken = 0;
  for (const { queue, id, state } of await allQueued(redis)) {
    if (!id.startsWith(jobStem(key)) || state === 'active') continue;
    taken += await queue.remove(id);
  }
  await redis.del(orderName(key));
  return [
    `${taken} shards taken out. Those that run are let run; what is done is kept where the sweep was started.`,
  ];
}
