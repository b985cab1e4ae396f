import { createHash } from 'node:crypto';
import { gunzipSync, gzipSync } from 'node:zlib';
import { issueText, parseCase } from '@tubgap/casefile';
import { z } from 'zod';
import { MOST_ANGLES } from './asked-gaps.ts';
import { type DrawsPlan, FORMATS, partTotal } from './draws-plan.ts';
import { partBytes } from './part-bytes.ts';

/** Version of the layouts of orders and parts; a reader refuses another. */
const DRAWS_VERSION = 1;
/** Files of one order at most. */
const MOST_PARTS = 100_000;

const count = z.number().int().min(0).max(Number.MAX_SAFE_INTEGER);
const settingSchema = z.strictObject({ path: z.string(), value: z.string() });

/** The draws of a case with all that it takes to make any file of them on a machine that has nothing but this program. */
export const drawsOrderSchema = z.strictObject({
  format: z.literal('tubgap draws order'),
  version: z.literal(DRAWS_VERSION),
  head: z.strictObject({
    madeBy: z.string().min(1),
    case: z.strictObject({ name: z.string(), file: z.string() }),
    settings: z.array(settingSchema),
    seed: count,
    draws: count.min(1),
    drawnBy: z.enum(['plain', 'weighted']),
    files: z.enum(FORMATS),
  }),
  /** Files of the whole. */
  shards: z.number().int().min(1).max(MOST_PARTS),
  /** The case file and the files that it names, as they were read. */
  case: z.strictObject({ text: z.string(), named: z.record(z.string(), z.string()) }),
  centres: z.strictObject({ points: z.array(z.array(z.number())) }),
  /** Gaps that are asked for, m and rad; null: none. */
  asked: z
    .strictObject({
      tub: z.number().int().min(0),
      topHeight: z.number().min(-100).max(100),
      angles: z.array(z.number().min(-7).max(7)).max(MOST_ANGLES),
    })
    .nullable(),
});

export type DrawsOrder = z.infer<typeof drawsOrderSchema>;

/** The order of a plan. @param read  the case file, the files that it names and the values in place of its own */
export const drawsOrder = (
  { source, sample, drawnBy, asked, format, madeBy }: DrawsPlan,
  parts: number,
  read: {
    text: string;
    named: Readonly<Record<string, string>>;
    set: readonly { path: string; value: string }[];
  },
): DrawsOrder => ({
  format: 'tubgap draws order',
  version: DRAWS_VERSION,
  head: {
    madeBy,
    case: { name: source.name, file: source.file },
    settings: read.set.map(({ path, value }) => ({ path, value })),
    seed: sample.seed,
    draws: sample.draws,
    drawnBy,
    files: format,
  },
  shards: parts,
  case: { text: read.text, named: { ...read.named } },
  centres: { ...sample.centres, points: sample.centres.points.map((point) => Array.from(point)) },
  asked: asked === undefined ? null : { ...asked, angles: [...asked.angles] },
});

/** The plan of an order: the same as that of the command line which it was made of. @throws RangeError when it has none */
export function orderedPlan({ head, case: { text, named }, centres, asked, shards }: DrawsOrder): DrawsPlan {
  const load = (name: string): string | undefined => (Object.hasOwn(named, name) ? named[name] : undefined);
  const read = parseCase({ file: head.case.file, text, load, set: head.settings });
  if (!read.ok) throw new RangeError(read.issues.map(issueText).slice(0, 3).join('; '));
  const source = read.value;
  source.simulation.seed = head.seed;
  source.simulation.draws = head.draws;
  const plan: DrawsPlan = {
    source,
    sample: {
      seed: head.seed,
      draws: head.draws,
      centres: { ...centres, points: centres.points.map((point) => Float64Array.from(point)) },
    },
    drawnBy: head.drawnBy,
    asked: asked ?? undefined,
    format: head.files,
    madeBy: head.madeBy,
  };
  if (shards !== partTotal(plan) || (asked !== null && asked.tub >= source.tubs.length)) {
    throw new RangeError('the order of the draws does not fit its own case');
  }
  return plan;
}

const partSchema = z.strictObject({
  format: z.literal('tubgap draws part'),
  version: z.literal(DRAWS_VERSION),
  /** Key of the order that it belongs to. */
  key: z.string(),
  shard: z.number().int().positive(),
  of: z.number().int().positive(),
  /** Digest of the file, so that a damaged one is not taken for a whole one. */
  digest: z.string(),
});

/** One file of draws on its way from who made it to who keeps it, packed by gzip. */
export type DrawsPart = z.infer<typeof partSchema> & { packed: Uint8Array };

const digestOf = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** The bytes of a part's file. */
export const bytesOf = ({ packed }: DrawsPart): Uint8Array => gunzipSync(packed);

/** Makes one file of ordered draws. @throws ModelRangeError */
export function workPart(order: DrawsOrder, plan: DrawsPlan, key: string, part: number): DrawsPart {
  const bytes = partBytes(plan, part);
  return {
    format: 'tubgap draws part',
    version: DRAWS_VERSION,
    key,
    shard: part,
    of: order.shards,
    digest: digestOf(bytes),
    packed: gzipSync(bytes, { level: 1 }),
  };
}

/** Checks what claims to be a part, whoever sent it: the part, or what is wrong with it. @param packed  its file */
export function checkPart(
  raw: unknown,
  packed: Uint8Array | undefined,
): { shard: DrawsPart } | { wrong: string } {
  const read = partSchema.safeParse(raw);
  if (!read.success) return { wrong: 'is no file of draws' };
  const part = { ...read.data, packed: packed ?? new Uint8Array() };
  try {
    if (digestOf(bytesOf(part)) === part.digest) return { shard: part };
  } catch {
    // What cannot be unpacked is told like what does not match.
  }
  return { wrong: 'is damaged: it does not match its digest' };
}

/** Why a sound part does not belong to an order; undefined when it does. */
export const foreignPart = (order: DrawsOrder, key: string, part: DrawsPart): string | undefined =>
  part.key === key && part.of === order.shards && part.shard <= order.shards
    ? undefined
    : 'belongs to other draws';
