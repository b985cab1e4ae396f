import { z } from 'zod';
import {
  digestOf,
  pointSchema,
  pointTotal,
  SHARD_VERSION,
  type SweepOrder,
  type SweepPoint,
  shardRange,
} from './order.ts';

const count = z.number().int().positive();

/** What working out one shard of a sweep gives. */
export const shardSchema = z.strictObject({
  format: z.literal('tubgap shard'),
  version: z.literal(SHARD_VERSION),
  /** Key of the sweep that it belongs to. */
  key: z.string(),
  shard: count,
  of: count,
  /** Digest of the points, so that a damaged file is not taken for a whole one. */
  digest: z.string(),
  points: z.array(pointSchema),
});

export type Shard = z.infer<typeof shardSchema>;

const pointsDigest = (points: readonly SweepPoint[]): string => digestOf(JSON.stringify(points));

/** Puts worked-out points into a shard. */
export function shardOf(key: string, shard: number, of: number, points: readonly SweepPoint[]): Shard {
  const checked = z.array(pointSchema).parse(points);
  return {
    format: 'tubgap shard',
    version: SHARD_VERSION,
    key,
    shard,
    of,
    digest: pointsDigest(checked),
    points: checked,
  };
}

/** Checks what claims to be a shard, whoever sent or wrote it: the shard, or what is wrong with it. */
export function checkShard(raw: unknown): { shard: Shard } | { wrong: string } {
  const version = (raw as { version?: unknown } | null)?.version;
  if (typeof raw !== 'object' || raw === null || (raw as { format?: unknown }).format !== 'tubgap shard') {
    return { wrong: 'is no shard' };
  }
  if (version !== SHARD_VERSION) {
    return {
      wrong: `is a shard in layout ${String(version).slice(0, 20)}; this program reads layout ${SHARD_VERSION}`,
    };
  }
  const read = shardSchema.safeParse(raw);
  if (!read.success) {
    const [first] = read.error.issues;
    return { wrong: `is damaged at ${first!.path.join('.')} (${first!.message})` };
  }
  if (read.data.digest !== pointsDigest(read.data.points)) {
    return { wrong: 'is damaged: its points do not match their digest' };
  }
  return { shard: read.data };
}

/** Why a sound shard does not belong to a sweep; undefined when it does. */
export function foreignTo(order: SweepOrder, key: string, shard: Shard): string | undefined {
  if (shard.key !== key) return 'belongs to another sweep';
  if (shard.of !== order.shards || shard.shard > order.shards) {
    return `is shard ${shard.shard} of ${shard.of}; this sweep has ${order.shards}`;
  }
  const [first, end] = shardRange(pointTotal(order), shard.shard, order.shards);
  return shard.points.length === end - first
    ? undefined
    : `holds ${shard.points.length} points; shard ${shard.shard} has ${end - first}`;
}

/** Reads the text of a shard's file: the shard, or what is wrong with it. */
export function readShard(text: string): { shard: Shard } | { wrong: string } {
  try {
    return checkShard(JSON.parse(text));
  } catch {
    return { wrong: text.trim() === '' ? 'is empty' : 'was cut off, or is no shard' };
  }
}
