import type { Redis } from 'ioredis';
import { PREFIX, QUEUE, QUEUES } from './jobs.ts';

/** Workers that are connected to Redis: of this build, and of others by what their queue is called. */
export interface WorkersThere {
  own: number;
  others: Map<string, number>;
}

/** Workers name their connection after prefix and queue; one that listens for events has something behind it. */
const CLIENT = new RegExp(`\\bname=${PREFIX}:([A-Za-z0-9+/]+={0,2})(?= |$)`);

/** Who works at the queues; undefined where Redis does not say who is connected. */
export async function workersThere(redis: Redis): Promise<WorkersThere | undefined> {
  const list = await redis.client('LIST').catch(() => undefined);
  if (typeof list !== 'string') return undefined;
  const there: WorkersThere = { own: 0, others: new Map() };
  for (const line of list.split('\n')) {
    const queue = Buffer.from(CLIENT.exec(line)?.[1] ?? '', 'base64').toString();
    if (queue === QUEUE) there.own++;
    else if (queue.startsWith(QUEUES)) there.others.set(queue, (there.others.get(queue) ?? 0) + 1);
  }
  return there;
}

const counted = (count: number, of: string): string => `${count} ${count === 1 ? 'worker' : 'workers'}${of}`;

/** Workers of other builds in words, one build after the other; empty when there are none. */
export const othersText = ({ others }: WorkersThere): string =>
  [...others]
    .map(([queue, count]) => {
      const build = queue.slice(QUEUES.length + 1);
      return counted(count, build === '' ? ' of an older version' : ` of build ${build}`);
    })
    .join(', ');

export const ownText = ({ own }: WorkersThere): string => counted(own, '');
