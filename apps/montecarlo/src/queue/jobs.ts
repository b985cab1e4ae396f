import type { JobsOptions } from 'bullmq';
import { z } from 'zod';
import { BUILD } from '../options.ts';
import { keyOf, type Order, readAnyOrder } from '../shards/kinds.ts';

/** Version of what travels through the queue; both ends refuse another. */
const JOB_VERSION = 1;

export const PREFIX = 'tubgap';
/** What the queues of all builds begin with. */
export const QUEUES = 'shards';
/** Every build has a queue of its own: a worker is never handed what it would work out otherwise. */
export const QUEUE = `${QUEUES}-${BUILD}`;

/** A shard as the queue carries it: its sweep is looked up by the key. */
const jobSchema = z.strictObject({
  format: z.literal('tubgap shard job'),
  version: z.literal(JOB_VERSION),
  key: z.string().regex(/^[0-9a-f]{64}$/),
  shard: z.number().int().positive(),
});

export type ShardJob = z.infer<typeof jobSchema>;

export const shardJob = (key: string, shard: number): ShardJob => ({
  format: 'tubgap shard job',
  version: JOB_VERSION,
  key,
  shard,
});

/** Reads a job, whoever put it there; undefined when it is none of this version. */
export function readJob(raw: unknown): ShardJob | undefined {
  const read = jobSchema.safeParse(raw);
  return read.success ? read.data : undefined;
}

/** Beginning of the names of a sweep's jobs, and the name of one: the same shard is never queued twice. */
export const jobStem = (key: string): string => `${key.slice(0, 16)}-`;
export const jobId = (key: string, shard: number): string => jobStem(key) + shard;

/** Where the order of a sweep lies, and the mark that it was cancelled. */
export const ORDERS = `${PREFIX}:order:`;
export const orderName = (key: string): string => ORDERS + key;
/** Where the bytes of a shard lie that are too large for its job. */
export const bytesName = (key: string, shard: number): string => `${PREFIX}:bytes:${key}:${shard}`;
export const cancelName = (key: string): string => `${PREFIX}:cancelled:${key}`;

/** Reads an order that lies in Redis; undefined when it is not the one that its key stands for. */
export function storedOrder(key: string, text: string): Order | undefined {
  const order = readAnyOrder(text);
  return order !== undefined && keyOf(order) === key ? order : undefined;
}

const DAY = 24 * 3600;
/** Seconds after which Redis forgets what nobody has fetched. */
export const KEEP = 14 * DAY;

export const JOB_OPTIONS: JobsOptions = {
  attempts: 3,
  backoff: { type: 'fixed', delay: 1000 },
  removeOnComplete: { age: KEEP },
  removeOnFail: { age: KEEP },
};

/** A lost worker's shard goes to another one after 10 to 15 s; the lock of a living one is renewed all the while. */
export const STALL = { lockDuration: 10_000, stalledInterval: 5000, maxStalledCount: 5 };

/** How a failed job says whose fault it was: the queue keeps one text of a failure, and no more. */
const inputFault = z.strictObject({ reason: z.string(), input: z.literal(true) });
export const inputReason = (reason: string): string => JSON.stringify({ reason, input: true });

/** What a failed job says, and whether its input was at fault; any other text is the reason itself. */
export function readReason(text: string): { reason: string; input: boolean } {
  try {
    return inputFault.parse(JSON.parse(text));
  } catch {
    return { reason: text, input: false };
  }
}
