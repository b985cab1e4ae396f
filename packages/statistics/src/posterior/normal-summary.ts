import { normalQuantileInside } from '../normal.ts';
import { sampleQuantile } from '../sample-quantile.ts';
import { choleskyFactor } from './cholesky.ts';

/** One coordinate in short: its median, and its spread below and above that, in standard deviations. */
export interface SplitNormal {
  middle: number;
  below: number;
  above: number;
}

/** Draws of several coordinates in short: each as a split normal, joined by a normal copula. */
export interface NormalSummary {
  coordinates: SplitNormal[];
  /**
   * Row i joins coordinate i to those before it: its standard normal number is Σ factor[i][k] · z_k. Rows have length 1.
   */
  factor: Float64Array[];
}

/** Correlations whose share in a row is less than this are left out. */
const SLIGHT = 0.1;
/** Quantiles on either side from which the spread is taken; the wider one counts, so that no tail is cut short. */
const TAILS = [0.16, 0.025, 0.005] as const;

function splitNormal(sorted: Float64Array): SplitNormal {
  const middle = sampleQuantile(sorted, 0.5);
  let below = 1e-6;
  let above = 1e-6;
  for (const tail of TAILS) {
    const z = -normalQuantileInside(tail);
    below = Math.max(below, (middle - sampleQuantile(sorted, tail)) / z);
    above = Math.max(above, (sampleQuantile(sorted, 1 - tail) - middle) / z);
  }
  return { middle, below, above };
}

/** Normal score of each draw by its rank. */
function scores(draws: Float64Array): Float64Array {
  const order = Array.from(draws.keys()).sort((a, b) => draws[a]! - draws[b]!);
  const out = new Float64Array(draws.length);
  order.forEach((draw, rank) => {
    out[draw] = normalQuantileInside((rank + 0.5) / draws.length);
  });
  return out;
}

function rankCorrelation(columns: readonly Float64Array[]): number[][] {
  const ranked = columns.map(scores);
  const dot = (a: Float64Array, b: Float64Array): number =>
    a.reduce((sum, value, i) => sum + value * b[i]!, 0);
  const length = ranked.map((column) => Math.sqrt(dot(column, column)));
  return ranked.map((a, i) => ranked.map((b, j) => (i === j ? 1 : dot(a, b) / (length[i]! * length[j]!))));
}

/** Puts draws in short. @param columns  one array of draws a coordinate, none of them constant */
export function normalSummary(columns: readonly Float64Array[]): NormalSummary {
  const factor = choleskyFactor(rankCorrelation(columns)).map((row, i) => {
    const kept = row.map((value, k) => (k === i || Math.abs(value) >= SLIGHT ? value : 0));
    const length = Math.hypot(...kept);
    return kept.map((value) => value / length);
  });
  return { coordinates: columns.map((column) => splitNormal(column.slice().sort())), factor };
}
