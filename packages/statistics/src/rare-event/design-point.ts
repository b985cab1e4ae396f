import type { CountedMargin } from './estimate.ts';

/** A point of the limit state that is nearest to the origin, at least around itself. */
export interface DesignPoint {
  readonly point: Float64Array;
  /** Its distance from the origin: the reliability index. */
  readonly index: number;
  /** Whether the search settled; if not, the point is the best it saw. */
  readonly settled: boolean;
}

const STEP = 1e-3;
const MOST_ROUNDS = 30;
const HALVINGS = 6;

const dot = (a: Float64Array, b: Float64Array): number => {
  let sum = 0;
  for (let k = 0; k < a.length; k++) sum += a[k]! * b[k]!;
  return sum;
};

/** Margin at u and its gradient by forward differences: d + 1 calls. */
function slopes(counted: CountedMargin, u: Float64Array): { margin: number; gradient: Float64Array } {
  const d = counted.dimension;
  const rows = new Float64Array((d + 1) * d);
  const margins = new Float64Array(d + 1);
  for (let row = 0; row <= d; row++) rows.set(u, row * d);
  for (let k = 0; k < d; k++) rows[(k + 1) * d + k] = u[k]! + STEP;
  counted.evaluate(rows, d + 1, margins);
  const gradient = margins.subarray(1).map((g) => (g - margins[0]!) / STEP);
  return { margin: margins[0]!, gradient };
}

/**
 * Searches the design point from `start`: each round goes to the point of the linearised limit state that is nearest to
 * the origin, and halves the way until a merit of distance and margin falls.
 * Source: R. Rackwitz and B. Fiessler (1978), Comput. Struct. 9:489; merit function and step rule of Y. Zhang and
 * A. Der Kiureghian (1995). Costs d + 2 calls a round, some ten rounds for a smooth margin.
 * @param start  a failing point, or one near failure; not kept
 * @param scale  size of the margin at the origin, above 0: what "near 0" is measured against
 */
export function designPoint(counted: CountedMargin, start: Float64Array, scale: number): DesignPoint {
  const d = counted.dimension;
  let u = start.slice();
  let best = { point: u, index: Math.hypot(...u), settled: false };
  const trial = new Float64Array(d);
  const trialMargin = new Float64Array(1);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const { margin, gradient } = slopes(counted, u);
    const steepness = Math.sqrt(dot(gradient, gradient));
    if (steepness < 1e-9 * scale) break;
    const size = Math.sqrt(dot(u, u));
    if (margin <= 1e-2 * scale && size < best.index) best = { point: u.slice(), index: size, settled: false };
    // Nearest point of the plane margin + gradient·(v − u) = 0.
    const reach = (dot(gradient, u) - margin) / (steepness * steepness);
    const way = gradient.map((slope, k) => reach * slope - u[k]!);
    const left = Math.sqrt(dot(way, way));
    if (Math.abs(margin) <= 1e-3 * scale && left <= 0.01 * Math.max(1, size)) {
      return { point: u, index: size, settled: true };
    }
    const price = (2 * size) / steepness + 10 / scale;
    const merit = 0.5 * size * size + price * Math.abs(margin);
    // Slope of the merit along the way; a fair part of the fall it promises is asked for, or the search may swing
    // between the two sides of a curved limit state for ever.
    const fall = dot(u, way) - price * Math.abs(margin);
    let moved = false;
    for (let half = 0, share = 1; half < HALVINGS && !moved; half++, share /= 2) {
      for (let k = 0; k < d; k++) trial[k] = u[k]! + share * way[k]!;
      counted.evaluate(trial, 1, trialMargin);
      moved = 0.5 * dot(trial, trial) + price * Math.abs(trialMargin[0]!) < merit + 0.4 * share * fall;
    }
    if (!moved) break;
    u = trial.slice();
  }
  return best;
}
