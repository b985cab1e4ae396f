import { choleskyFactor, solveLower } from './cholesky.ts';
import type { LogLikelihood, Swing } from './elliptical-slice.ts';

/** Step of the differences, in standard deviations of the prior: small against them, large against rounding. */
const STEP = 1e-3;
/** Step of the second differences of what may have kinks. */
const CURVED = 0.02;
const MOST_STEPS = 60;

/**
 * The highest point of a posterior with a standard normal prior near a start, and the normal law that has its curvature
 * there: where a sampler's proposals do well to begin. Quasi-Newton steps (Broyden, Fletcher, Goldfarb and Shanno) on
 * central differences. Where the likelihood is not smooth the law is only a poorer guess.
 * @param asked  called with the likelihoods asked for
 */
export function normalAtMode(
  logLikelihood: LogLikelihood,
  start: Float64Array,
  asked: (count: number) => void,
): Swing {
  const n = start.length;
  const value = (point: Float64Array): number => {
    asked(1);
    let square = 0;
    for (const x of point) square += x * x;
    return 0.5 * square - logLikelihood(point, Number.NEGATIVE_INFINITY);
  };
  const gradient = (point: Float64Array, step: number): Float64Array => {
    const moved = point.slice();
    return point.map((x, i) => {
      moved[i] = x + step;
      const up = value(moved);
      moved[i] = x - step;
      const down = value(moved);
      moved[i] = x;
      const slope = (up - down) / (2 * step);
      return Number.isFinite(slope) ? slope : 0;
    });
  };
  const point = climb(value, (at) => gradient(at, STEP), start);
  return {
    mean: point,
    factor: covarianceFactor(
      curvature(point, (at) => gradient(at, CURVED)),
      n,
    ),
  };
}

function climb(
  value: (point: Float64Array) => number,
  gradient: (point: Float64Array) => Float64Array,
  start: Float64Array,
): Float64Array {
  const n = start.length;
  let point = start;
  let here = value(point);
  let slope = gradient(point);
  let inverse = identity(n);
  for (let step = 0; step < MOST_STEPS; step++) {
    const way = inverse.map((row) => -row.reduce((sum, x, k) => sum + x * slope[k]!, 0));
    const fall = way.reduce((sum, x, k) => sum + x * slope[k]!, 0);
    if (!(fall < 0)) {
      inverse = identity(n);
      if (step > 0 && slope.every((x) => Math.abs(x) < 1e-3)) break;
    }
    const along = fall < 0 ? way : Array.from(slope, (x) => -x);
    let length = Math.min(1, 3 / Math.hypot(...along));
    let next = point.map((x, k) => x + length * along[k]!);
    let there = value(next);
    while (!(there < here) && length > 1e-6) {
      length /= 3;
      next = point.map((x, k) => x + length * along[k]!);
      there = value(next);
    }
    if (!(there < here)) break;
    const gained = here - there;
    const nextSlope = gradient(next);
    update(
      inverse,
      next.map((x, k) => x - point[k]!),
      nextSlope.map((x, k) => x - slope[k]!),
    );
    point = next;
    slope = nextSlope;
    here = there;
    if (gained < 1e-4) break;
  }
  return point;
}

const identity = (n: number): Float64Array[] =>
  Array.from({ length: n }, (_, i) => {
    const row = new Float64Array(n);
    row[i] = 1;
    return row;
  });

/** Puts what a step showed of the curvature into the inverse; a step that showed none is left out. */
function update(inverse: Float64Array[], step: Float64Array, change: Float64Array): void {
  const n = step.length;
  const product = step.reduce((sum, x, k) => sum + x * change[k]!, 0);
  if (!(product > 1e-12)) return;
  const moved = inverse.map((row) => row.reduce((sum, x, k) => sum + x * change[k]!, 0));
  const scale = moved.reduce((sum, x, k) => sum + x * change[k]!, 0);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      inverse[i]![j]! +=
        ((1 + scale / product) * step[i]! * step[j]!) / product -
        (moved[i]! * step[j]! + step[i]! * moved[j]!) / product;
    }
  }
}

/** Second derivatives at a point, symmetric. */
function curvature(point: Float64Array, gradient: (point: Float64Array) => Float64Array): Float64Array[] {
  const moved = point.slice();
  const rows = Array.from(point, (x, i) => {
    moved[i] = x + CURVED;
    const up = gradient(moved);
    moved[i] = x - CURVED;
    const down = gradient(moved);
    moved[i] = x;
    return up.map((value, k) => (value - down[k]!) / (2 * CURVED));
  });
  return rows.map((row, i) => row.map((value, j) => 0.5 * (value + rows[j]![i]!)));
}

/** Factor of the inverse of a curvature, which is lifted until it is positive. */
function covarianceFactor(curved: readonly Float64Array[], n: number): Float64Array[] {
  for (let lift = 0; ; lift = lift === 0 ? 0.1 : lift * 3) {
    try {
      const factor = choleskyFactor(curved.map((row, i) => row.map((x, j) => (i === j ? x + lift : x))));
      const halves = identity(n).map((unit) => solveLower(factor, unit, new Float64Array(n)));
      const covariance = halves.map((a) =>
        Float64Array.from(halves, (b) => a.reduce((sum, x, k) => sum + x * b[k]!, 0)),
      );
      return choleskyFactor(covariance);
    } catch (error) {
      if (!(error instanceof RangeError) || lift > 1e6) throw error;
    }
  }
}
