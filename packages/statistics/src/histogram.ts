import type { Interval } from './interval.ts';

/**
 * Counts of values in equal cells from low to high, and beside them what fell below and above, with the extremes.
 * Whole counts only, so that the sum over any number of workers is the same in any order.
 */
export interface Histogram {
  readonly low: number;
  readonly high: number;
  readonly counts: Float64Array;
  below: number;
  above: number;
  least: number;
  greatest: number;
}

/**
 * An empty histogram.
 * @param low, high  ends, finite, low < high, in the unit of the values; else RangeError
 * @param cells      whole, 1 to 10 million; (high − low)/cells is the width that bounds the error of a quantile
 */
export function emptyHistogram(low: number, high: number, cells: number): Histogram {
  if (!(Number.isFinite(low) && Number.isFinite(high) && low < high)) {
    throw new RangeError(
      `low, high: read ${low}, ${high}; two finite numbers with low below high are needed.`,
    );
  }
  if (!(Number.isInteger(cells) && cells >= 1 && cells <= 1e7)) {
    throw new RangeError(`cells: read ${cells}; a whole number from 1 to 10000000 is needed.`);
  }
  const counts = new Float64Array(cells);
  return { low, high, counts, below: 0, above: 0, least: Infinity, greatest: -Infinity };
}

/** Counts the first `count` values into the histogram; NaN: RangeError. */
export function countValues(histogram: Histogram, values: Float64Array, count: number): void {
  const { low, high, counts } = histogram;
  const scale = counts.length / (high - low);
  for (let i = 0; i < count; i++) {
    const x = values[i]!;
    if (x < low) histogram.below += 1;
    else if (x >= high) histogram.above += 1;
    else if (Number.isNaN(x)) throw new RangeError(`values[${i}]: read NaN; a number is needed.`);
    else {
      const cell = Math.min(counts.length - 1, Math.floor((x - low) * scale));
      counts[cell] = counts[cell]! + 1;
    }
    if (x < histogram.least) histogram.least = x;
    if (x > histogram.greatest) histogram.greatest = x;
  }
}

/** Adds the counts of `other` to `histogram`; another range or number of cells: RangeError. */
export function mergeHistogram(histogram: Histogram, other: Histogram): void {
  const { low, high, counts } = histogram;
  if (low !== other.low || high !== other.high || counts.length !== other.counts.length) {
    throw new RangeError(
      `histogram: read ${other.counts.length} cells from ${other.low} to ${other.high}; ${counts.length} from ${low} to ${high} are needed.`,
    );
  }
  for (let i = 0; i < counts.length; i++) counts[i] = counts[i]! + other.counts[i]!;
  histogram.below += other.below;
  histogram.above += other.above;
  histogram.least = Math.min(histogram.least, other.least);
  histogram.greatest = Math.max(histogram.greatest, other.greatest);
}

/** Number of values counted. */
export function histogramTotal(histogram: Histogram): number {
  let total = histogram.below + histogram.above;
  for (const count of histogram.counts) total += count;
  return total;
}

/**
 * Bounds between which the sample's value of rank ⌈q·n⌉ (the least one for q = 0) lies for certain: one cell, or
 * from an extreme to the end of the range when it fell outside. The middle is off by at most half the width.
 * @param q  0 to 1, else RangeError; an empty histogram: RangeError
 */
export function histogramQuantile(histogram: Histogram, q: number): Interval {
  if (!(q >= 0 && q <= 1)) throw new RangeError(`q: read ${q}; a share from 0 to 1 is needed.`);
  const total = histogramTotal(histogram);
  if (total === 0) throw new RangeError('histogram: it is empty; count values first.');
  const { low, high, counts, least, greatest } = histogram;
  const rank = Math.max(1, Math.ceil(q * total));
  let seen = histogram.below;
  if (rank <= seen) return { low: least, high: Math.min(low, greatest) };
  const width = (high - low) / counts.length;
  for (let i = 0; i < counts.length; i++) {
    seen += counts[i]!;
    if (rank <= seen) {
      return { low: Math.max(least, low + i * width), high: Math.min(greatest, low + (i + 1) * width) };
    }
  }
  return { low: Math.max(high, least), high: greatest };
}
