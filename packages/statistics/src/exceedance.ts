import { countSuffices, type Probability, splitProbability } from './split-probability.ts';

/**
 * Draws of a number, sorted by how many values of a rising grid they exceed: element n holds those above the lowest n
 * values and no more, the last those above all.
 */
export interface StepSums {
  plain: {
    draws: number;
    /** Counts of all draws, and of those where the mixture's density is below SEEN_FROM. */
    hits: ArrayLike<number>;
    unseen: ArrayLike<number>;
  };
  /** Sums over draws with a weight of at most 1/SEEN_FROM; undefined without weighted draws. */
  weighted?: { draws: number; weight: ArrayLike<number>; square: ArrayLike<number> } | undefined;
}

/** Probability of exceeding each value of the grid, from the lowest, element 0. Neither estimate nor bounds ever rise. */
export type Exceedance = (n: number) => Probability;

/** Sums over the draws above each value of the grid. */
function above(steps: ArrayLike<number>): Float64Array {
  const sums = new Float64Array(steps.length - 1);
  let sum = 0;
  for (let n = sums.length - 1; n >= 0; n--) {
    sum += steps[n + 1]!;
    sums[n] = sum;
  }
  return sums;
}

/** The same with nothing above what was said of a lower value: whoever exceeds this one exceeds that. */
function notAbove(here: Probability, below: Probability | undefined): Probability {
  if (below === undefined) return here;
  return {
    ...(here.estimate > below.estimate ? below : here),
    hits: here.hits,
    low: here.low,
    high: Math.min(here.high, below.high),
    seenHigh: Math.min(here.seenHigh, below.seenHigh),
  };
}

/**
 * Probability of exceeding each value of a grid, by splitProbability. A bound that holds at one value holds at every
 * higher one, a lower bound at every lower one: so the upper ones are running minima from the lowest value up, the
 * lower ones running maxima from the highest down.
 */
export function exceedance({ plain, weighted }: StepSums): Exceedance {
  const hits = above(plain.hits);
  const unseen = above(plain.unseen);
  const weight = weighted === undefined ? undefined : above(weighted.weight);
  const square = weighted === undefined ? undefined : above(weighted.square);
  const raw = (n: number): Probability =>
    splitProbability({
      plain: { draws: plain.draws, hits: hits[n]!, unseen: unseen[n]! },
      weighted: { draws: weighted?.draws ?? 1, weight: weight?.[n] ?? 0, square: square?.[n] ?? 0 },
    });
  const alike = (a: number, b: number): boolean =>
    [hits, unseen, weight, square].every((sums) => sums === undefined || sums[a] === sums[b]);
  // Below it the count suffices, and an exact bound of a count falls with the count by itself.
  const rare = hits.findIndex((count) => !countSuffices(count));
  const first = rare < 0 ? hits.length : rare;
  let found: Probability[] | undefined;
  const rareOnes = (): Probability[] => {
    const list: Probability[] = [];
    let below = first > 0 ? raw(first - 1) : undefined;
    let own = below;
    for (let n = first; n < hits.length; n++) {
      if (own === undefined || !alike(n, n - 1)) own = raw(n);
      below = notAbove(own, below);
      list.push(below);
    }
    let low = 0;
    for (let n = list.length - 1; n >= 0; n--) {
      const one = list[n]!;
      low = Math.min(one.estimate, Math.max(low, one.low));
      list[n] = { ...one, low };
    }
    return list;
  };
  const counted = new Map<number, Probability>();
  return (n) => {
    if (!(n >= 0 && n < hits.length)) {
      throw new RangeError(`n: read ${n}; a whole number from 0 to ${hits.length - 1} is needed.`);
    }
    found ??= rareOnes();
    if (n >= first) return found[n - first]!;
    let one = counted.get(n);
    if (one === undefined) {
      const own = raw(n);
      one = { ...own, low: Math.max(own.low, found[0]?.low ?? 0) };
      counted.set(n, one);
    }
    return one;
  };
}

/**
 * Place, from 0, of the first of `length` values of a grid from which on one end of the interval, or the estimate, stays
 * within a limit; undefined when none does. By bisection: what a curve says never rises.
 */
export function firstWithin<End extends string>(
  probability: (n: number) => Readonly<Record<End, number>>,
  length: number,
  limit: number,
  end: End,
): number | undefined {
  if (probability(length - 1)[end] > limit) return undefined;
  let within = length - 1;
  for (let outside = -1; within - outside > 1; ) {
    const middle = (within + outside) >> 1;
    if (probability(middle)[end] > limit) outside = middle;
    else within = middle;
  }
  return within;
}
