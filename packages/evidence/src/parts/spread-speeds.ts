/** A number that lies evenly between two ends, which may be the same. */
export interface Range {
  low: number;
  high: number;
}

/** So many numbers that stand for some ranges together, rising, and how much each counts for each of them. */
export interface Spread {
  values: Float64Array;
  /** [range][number], adding up to 1 for each range. */
  shares: readonly Float64Array[];
  /** Which number stands for a place in a range. @param share  how far into it, 0 to 1 */
  runAt: (range: number, share: number) => number;
}

/** Ends that fall together are taken this far apart, of the larger. */
const LEAST_WIDTH = 1e-8;

/**
 * Spreads numbers evenly over several ranges at once, each range alike: one set of runs, weighed anew for each range of
 * speeds, answers for all of them. A number counts for a range by as much of its cell as lies in it, so that one range alone
 * has all of them alike.
 * @returns the spread for some count, kept for the next time
 */
export function spreadOver(ranges: readonly Range[]): (count: number) => Spread {
  const own = ranges.map(({ low, high }) => ({
    low,
    high: Math.max(high, low + LEAST_WIDTH * Math.max(1, Math.abs(low))),
  }));
  const distinct = own.filter(
    (one, k) => own.findIndex(({ low, high }) => low === one.low && high === one.high) === k,
  );
  const ends = [...new Set(distinct.flatMap(({ low, high }) => [low, high]))].sort((a, b) => a - b);
  /** Share of all below each end. */
  const below = ends.map((end) =>
    distinct.reduce(
      (sum, { low, high }) => sum + Math.min(1, Math.max(0, (end - low) / (high - low))) / distinct.length,
      0,
    ),
  );
  const shareBelow = (value: number): number => {
    const k = Math.max(
      1,
      ends.findIndex((end) => end >= value),
    );
    const [from, to] = [ends[k - 1]!, ends[k]!];
    return below[k - 1]! + ((below[k]! - below[k - 1]!) * (value - from)) / (to - from);
  };
  const valueAt = (share: number): number => {
    const k = Math.max(
      1,
      below.findIndex((one) => one >= share),
    );
    const [from, to] = [below[k - 1]!, below[k]!];
    return to === from ? ends[k]! : ends[k - 1]! + ((ends[k]! - ends[k - 1]!) * (share - from)) / (to - from);
  };
  const made = new Map<number, Spread>();
  return (count) => {
    const before = made.get(count);
    if (before !== undefined) return before;
    const edges = Array.from({ length: count + 1 }, (_, n) =>
      n === count ? ends[ends.length - 1]! : valueAt(n / count),
    );
    const shares = own.map(({ low, high }) =>
      Float64Array.from({ length: count }, (_, n) => {
        const within = Math.min(high, edges[n + 1]!) - Math.max(low, edges[n]!);
        return Math.max(0, within) / (high - low);
      }),
    );
    const spread: Spread = {
      values: Float64Array.from({ length: count }, (_, n) => valueAt((n + 0.5) / count)),
      shares,
      runAt: (range, share) => {
        const { low, high } = own[range]!;
        return Math.min(count - 1, Math.floor(count * shareBelow(low + (high - low) * share)));
      },
    };
    made.set(count, spread);
    return spread;
  };
}
