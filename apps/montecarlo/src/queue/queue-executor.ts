import { type Job, Queue, QueueEvents } from 'bullmq';
import type { Redis } from 'ioredis';
import { MADE_BY } from '../options.ts';
import type { Executor, ExecutorReport } from '../shards/executor.ts';
import type { AnyShard, Kind, Order } from '../shards/kinds.ts';
import { connect, soon } from './connection.ts';
import {
  bytesName,
  cancelName,
  JOB_OPTIONS,
  jobId,
  KEEP,
  orderName,
  PREFIX,
  QUEUE,
  readReason,
  shardJob,
} from './jobs.ts';
import { othersText, workersThere } from './workers.ts';

/** However well the queue tells of what happens, all that is out is looked at so often, ms. */
const LOOK_EVERY = 2000;
/** Answers of a shard that may be no answer before it is given up. */
const MOST_WRONG = 3;

/** Wakes whoever waits: by an event, or after a while. */
function alarm(): { ring: () => void; wait: (milliseconds: number) => Promise<void> } {
  let wake: (() => void) | undefined;
  let rung = false;
  return {
    ring: () => {
      rung = true;
      wake?.();
    },
    wait: async (milliseconds) => {
      if (!rung) {
        await new Promise<void>((resolve) => {
          const timer = setTimeout(resolve, milliseconds);
          wake = () => {
            clearTimeout(timer);
            resolve();
          };
        });
      }
      rung = false;
      wake = undefined;
    },
  };
}

/** One order on its way through the queue. */
class QueueClient<O extends Order, S extends AnyShard> {
  readonly #queue: Queue;
  readonly #redis: Redis;
  readonly #kind: Kind<O, S>;
  readonly #order: O;
  readonly #key: string;
  readonly #report: ExecutorReport<S>;
  readonly #text: string;
  readonly #wrong = new Map<number, number>();
  /** Shards that are in the queue, as far as is known here. */
  readonly out = new Set<number>();

  constructor(
    queue: Queue,
    redis: Redis,
    kind: Kind<O, S>,
    order: O,
    key: string,
    report: ExecutorReport<S>,
  ) {
    this.#queue = queue;
    this.#kind = kind;
    this.#redis = redis;
    this.#order = order;
    this.#key = key;
    this.#report = report;
    this.#text = kind.text(order);
  }

  /** Puts shards into the queue; one that is there already stays as it is. */
  async put(shards: readonly number[]): Promise<void> {
    if (shards.length === 0) return;
    await this.#redis.set(orderName(this.#key), this.#text, 'EX', KEEP);
    await this.#queue.addBulk(
      shards.map((shard) => ({
        name: 'shard',
        data: shardJob(this.#key, shard),
        opts: { ...JOB_OPTIONS, jobId: jobId(this.#key, shard) },
      })),
    );
    for (const shard of shards) this.out.add(shard);
  }

  /** Looks what became of shards; those that Redis has lost are put in again. */
  async look(shards: readonly number[]): Promise<void> {
    const lost: number[] = [];
    for (const shard of shards) {
      const job = await this.#jobOf(shard);
      if (job === undefined) lost.push(shard);
      else if (job.finishedOn !== undefined) await this.#settle(shard, job);
    }
    await this.put(lost);
  }

  /** The job of a shard; one that cannot be read is taken out, and is then lost like any other. */
  async #jobOf(shard: number): Promise<Job | undefined> {
    const id = jobId(this.#key, shard);
    try {
      return (await this.#queue.getJob(id)) as Job | undefined;
    } catch (error) {
      if (!(error instanceof SyntaxError)) throw error;
      await this.#queue.remove(id);
      return undefined;
    }
  }

  async #settle(shard: number, job: Job): Promise<void> {
    const state = await job.getState();
    if (state === 'completed') {
      const bytes = (await this.#redis.getBuffer(bytesName(this.#key, shard))) ?? undefined;
      const read = this.#kind.check(job.returnvalue, bytes);
      const wrong =
        'wrong' in read
          ? read.wrong
          : (this.#kind.foreign(this.#order, this.#key, read.shard) ??
            (read.shard.shard === shard ? undefined : `is shard ${read.shard.shard}`));
      if ('shard' in read && wrong === undefined) {
        // Kept here before it leaves the queue: a coordinator that dies in between finds it in both places.
        this.#report.done(read.shard);
        this.out.delete(shard);
        await job.remove();
        await this.#redis.del(bytesName(this.#key, shard));
        return;
      }
      const times = (this.#wrong.get(shard) ?? 0) + 1;
      this.#wrong.set(shard, times);
      await job.remove();
      if (times < MOST_WRONG) return this.put([shard]);
      this.out.delete(shard);
      this.#report.failed({ shard, reason: `what a worker answered ${wrong}`, input: false });
    } else if (state === 'failed') {
      this.out.delete(shard);
      this.#report.failed({ shard, ...readReason(job.failedReason) });
      await job.remove();
    }
  }

  /** Takes out of the queue what no worker has begun. */
  async withdraw(): Promise<void> {
    for (const shard of this.out) await this.#queue.remove(jobId(this.#key, shard)).catch(() => 0);
  }

  isCancelled = async (): Promise<boolean> => (await this.#redis.exists(cancelName(this.#key))) === 1;

  begin = (): Promise<unknown> => this.#redis.del(cancelName(this.#key));
  end = (): Promise<unknown> => this.#redis.del(orderName(this.#key));
}

/** An executor behind the queue at REDIS_URL. @throws StudyFault when no Redis answers there */
export async function queueExecutor<O extends Order, S extends AnyShard>(
  kind: Kind<O, S>,
): Promise<Executor<O, S>> {
  const { window } = kind;
  const { redis, shown } = await connect();
  const queue = new Queue(QUEUE, { connection: redis, prefix: PREFIX });
  const events = new QueueEvents(QUEUE, { connection: redis, prefix: PREFIX });
  // A connection that breaks is reported in connection.ts.
  queue.on('error', () => {});
  events.on('error', () => {});
  const { ring, wait } = alarm();
  const rung = new Set<string>();
  const heard = ({ jobId: id }: { jobId: string }): void => {
    rung.add(id);
    ring();
  };
  events.on('completed', heard).on('failed', heard);
  let stopped = false;
  let stopping: () => void = () => {};
  const stop = new Promise<void>((resolve) => {
    stopping = resolve;
  });

  const pass = async (client: QueueClient<O, S>, key: string, shards: readonly number[]): Promise<void> => {
    await client.begin();
    const there = await workersThere(redis);
    if (there?.own === 0) {
      process.stderr.write(
        `No worker is at ${shown} yet; start tubgap work on as many machines as you like.\n`,
      );
    }
    if (there !== undefined && there.others.size > 0) {
      process.stderr.write(
        `Also at ${shown}: ${othersText(there)}; this is ${MADE_BY}. They get nothing of this sweep: what they work out is not the same. Use one build everywhere.\n`,
      );
    }
    let next = 0;
    let looked = performance.now();
    while (!stopped && (next < shards.length || client.out.size > 0)) {
      const room = window - client.out.size;
      if (room > window / 4 || next === 0) {
        await client.put(shards.slice(next, next + room));
        next = Math.min(shards.length, next + room);
      }
      await wait(LOOK_EVERY);
      const all = performance.now() - looked > LOOK_EVERY;
      const names = new Set(rung);
      rung.clear();
      await client.look([...client.out].filter((shard) => all || names.has(jobId(key, shard))));
      if (all) {
        if (await client.isCancelled()) return client.withdraw();
        looked = performance.now();
      }
    }
    if (!stopped) await client.end();
  };

  return {
    work: async (order, key, shards, report) => {
      const client = new QueueClient(queue, redis, kind, order, key, report);
      // While Redis is away its commands wait; a stop by hand does not.
      await Promise.race([pass(client, key, shards), stop]);
      if (stopped) await soon(client.withdraw());
    },
    stop: async () => {
      stopped = true;
      stopping();
      ring();
    },
    close: async () => {
      redis.disconnect();
      await soon(Promise.all([queue.close(), events.close()]).catch(() => undefined));
    },
  };
}
