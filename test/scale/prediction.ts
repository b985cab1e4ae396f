/** What one sweep's parts take, s: measured on one machine. */
export interface Costs {
  /** Making a point out, by one core before anything is run. */
  pointMadeOut: number;
  /** What every thread works out once. */
  base: number;
  /** A shard, on a core of its own. */
  shard: number;
  /** The queue's time for a shard: all of it, and the coordinator's part, which no second core can share. */
  queue: number;
  coordinator: number;
}

/** A sweep of some thousand points, as the README tells of. */
export const PREDICTED = { points: 8000, shards: 1000 };

/**
 * Seconds that such a sweep takes on so many cores, were nothing else in the way: made out by one, then each core its base
 * and its share of the shards, but never faster than the coordinator takes them in. A prediction, not a measurement.
 */
export function predictedSeconds(costs: Costs, cores: number): number {
  const { points, shards } = PREDICTED;
  const own = Math.ceil(shards / cores) * (costs.shard + costs.queue - costs.coordinator);
  return points * costs.pointMadeOut + costs.base + Math.max(own, shards * costs.coordinator);
}

/** Share of the cores' time that is work on shards. */
export const busyShare = (costs: Costs, cores: number): number =>
  (PREDICTED.shards * costs.shard) / (cores * predictedSeconds(costs, cores));
