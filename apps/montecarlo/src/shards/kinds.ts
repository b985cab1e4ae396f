import {
  checkPart,
  type DrawsOrder,
  type DrawsPart,
  drawsOrderSchema,
  foreignPart,
} from '../rows/draws-order.ts';
import { checkOrder, digestOf, orderText, type SweepOrder } from './order.ts';
import { checkShard, foreignTo, type Shard } from './shard.ts';

/** What may be worked out in shards, and what a shard of it is. */
export type Order = SweepOrder | DrawsOrder;
export type AnyShard = Shard | DrawsPart;

/** What an executor has to know of a kind of work. */
export interface Kind<O extends Order, S extends AnyShard> {
  /** The same order gives the same text on any machine. */
  text: (order: O) => string;
  /** What travels of a shard as a record, and beside it, where it is large, as bytes. */
  parted: (shard: S) => { record: unknown; bytes?: Uint8Array };
  /** Checks what claims to be a shard, whoever sent it. */
  check: (record: unknown, bytes: Uint8Array | undefined) => { shard: S } | { wrong: string };
  /** Why a sound shard does not belong to an order; undefined when it does. */
  foreign: (order: O, key: string, shard: S) => string | undefined;
  /** Shards that wait in a queue at a time: what is kept there and here does not grow with their number. */
  window: number;
}

export const SWEEPS: Kind<SweepOrder, Shard> = {
  text: orderText,
  parted: (record) => ({ record }),
  check: checkShard,
  foreign: foreignTo,
  window: 256,
};

/** A file of draws has some 30 MB, packed a third of that. */
export const DRAWS: Kind<DrawsOrder, DrawsPart> = {
  text: (order) => `${JSON.stringify(drawsOrderSchema.parse(order), null, 1)}\n`,
  parted: ({ packed, ...record }) => ({ record, bytes: packed }),
  check: checkPart,
  foreign: foreignPart,
  window: 16,
};

export const isDraws = (order: Order): order is DrawsOrder => order.format === 'tubgap draws order';

const textOf = (order: Order): string => (isDraws(order) ? DRAWS.text(order) : SWEEPS.text(order));

/** The key of an order: shards belong together when theirs is the same. */
export const keyOf = (order: Order): string => digestOf(textOf(order));

/** Reads an order of either kind; undefined when it is none of this program's. */
export function readAnyOrder(text: string): Order | undefined {
  try {
    const raw: unknown = JSON.parse(text);
    const draws = drawsOrderSchema.safeParse(raw);
    return draws.success ? draws.data : checkOrder(raw);
  } catch {
    return undefined;
  }
}

/** What travels of a shard of an order that was worked out here; or what is wrong with it. */
export function partedOf(
  order: Order,
  shard: AnyShard,
): { record: unknown; bytes?: Uint8Array } | { wrong: string } {
  if ('packed' in shard) return DRAWS.parted(shard);
  const checked = SWEEPS.check(shard, undefined);
  return 'wrong' in checked || isDraws(order) ? { wrong: 'is no such shard' } : SWEEPS.parted(checked.shard);
}
