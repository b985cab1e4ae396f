import { InvalidArgumentError } from '@commander-js/extra-typings';

/** Shards of one sweep at most. */
export const MOST_SHARDS = 10_000;

/** One of the shards of a sweep. */
export interface ShardChoice {
  shard: number;
  of: number;
}

/** Reads '3/10'. */
export function shardOption(words: string): ShardChoice {
  const [, i, n] = /^(\d{1,5})\/(\d{1,5})$/.exec(words.trim()) ?? [];
  const [shard, of] = [Number(i), Number(n)];
  if (shard >= 1 && shard <= of && of <= MOST_SHARDS) return { shard, of };
  throw new InvalidArgumentError(
    `read "${words}"; the number of the shard and of all shards are needed, from 1/10 to 10/10 for ten (at most ${MOST_SHARDS}).`,
  );
}
