import { createHash } from 'node:crypto';
import { type StudyOf, studySchema } from '@tubgap/results';
import type { StudySample } from '@tubgap/simulation';
import { BLOCK } from '@tubgap/statistics';
import { z } from 'zod';
import { pointCount } from '../study/sweep-points.ts';
import { MOST_SHARDS } from './shard-choice.ts';

/** Version of the layouts of orders and shards; a reader refuses another. 3: a folder's order carries its digest. 4: it carries
 * the draws of the base's pick. 5: a value of a sweep may be several settings. 6: contact, gaps and seasons beside the
 * risk of a run. */
export const SHARD_VERSION = 6;

const [sweep] = studySchema.options;
/** One point of a sweep as its record keeps it. */
export const pointSchema = sweep.shape.points.element;
/** What the record of a sweep says before anything was run. */
const headSchema = sweep.omit({ points: true, chosen: true });

const settingSchema = z.strictObject({ path: z.string(), value: z.string() });

/** A sweep with all that it takes to work out any shard of it on a machine that has nothing but this program. */
export const orderSchema = z.strictObject({
  format: z.literal('tubgap sweep order'),
  version: z.literal(SHARD_VERSION),
  head: headSchema,
  shards: z.number().int().min(1).max(MOST_SHARDS),
  /** The case file and the files that it names, as they were read. */
  case: z.strictObject({ text: z.string(), named: z.record(z.string(), z.string()) }),
  /** What was asked for, as a sweep file. */
  sweepFile: z.string(),
  /** What each value of each varied input comes to. */
  values: z.array(z.array(z.array(settingSchema))),
  /** Centres of the weighted draws, and heights of each tub at which risks are compared, m: those of the base's pick. */
  centres: z.strictObject({ points: z.array(z.array(z.number())) }),
  compared: z.array(z.array(z.number().min(-100).max(100))),
  /** Heights that each tub is counted from, m, the same for all points. */
  lowest: z.array(z.number().min(-100).max(100)),
});

export type SweepOrder = z.infer<typeof orderSchema>;
export type SweepPoint = StudyOf<'sweep'>['points'][number];

/** The digest of a text. */
export const digestOf = (text: string): string => createHash('sha256').update(text).digest('hex');

/** The text of an order: the same sweep gives the same text on any machine. */
export const orderText = (order: SweepOrder): string =>
  `${JSON.stringify(orderSchema.parse(order), null, 1)}\n`;

/** The key of a sweep: shards belong together when theirs is the same. */
export const orderKey = (order: SweepOrder): string => digestOf(orderText(order));

/** What claims to be an order; undefined when it is none of this program's. */
export function checkOrder(raw: unknown): SweepOrder | undefined {
  const read = orderSchema.safeParse(raw);
  return read.success && read.data.head.madeBy !== '' ? read.data : undefined;
}

/** The draws of every point of an ordered sweep. */
export const sampleOf = ({ head, centres }: SweepOrder): StudySample => ({
  draws: head.draws,
  weightedBlocks: head.weighted / BLOCK,
  centres: { ...centres, points: centres.points.map((point) => Float64Array.from(point)) },
});

/** Number of points of an ordered sweep, the case as it stands among them. */
export function pointTotal({ head }: SweepOrder): number {
  const lengths = head.varied.map(({ texts }) => texts.length);
  return 1 + pointCount(head.mode, lengths);
}

/** Points of a shard, from 1 to the number of shards: the first, and the one behind its last. */
export function shardRange(points: number, shard: number, shards: number): [number, number] {
  return [Math.floor(((shard - 1) * points) / shards), Math.floor((shard * points) / shards)];
}

/** What differs between two orders, in words; empty when nothing does. */
export function orderDifference(one: SweepOrder, other: SweepOrder): string[] {
  const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);
  const { head: a } = one;
  const { head: b } = other;
  const parts: [string, boolean][] = [
    [`the build of this program (${a.madeBy} and ${b.madeBy})`, a.madeBy === b.madeBy],
    ['the case file or what it names', same(one.case, other.case)],
    ['the settings', same(a.settings, b.settings)],
    ['what is varied', same([a.mode, a.varied, a.shown], [b.mode, b.varied, b.shown])],
    [`the runs (${a.draws} and ${b.draws})`, a.draws === b.draws],
    [`the cars of the seasons (${a.cars ?? 'none'} and ${b.cars ?? 'none'})`, a.cars === b.cars],
    [`the seed (${a.seed} and ${b.seed})`, a.seed === b.seed],
    [`the number of shards (${one.shards} and ${other.shards})`, one.shards === other.shards],
  ];
  const named = parts.filter(([, equal]) => !equal).map(([name]) => name);
  return named.length === 0 && !same(one, other) ? ['something'] : named;
}
