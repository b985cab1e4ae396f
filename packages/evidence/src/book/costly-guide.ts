import {
  choleskyFactor,
  type LogLikelihood,
  type NumberSource,
  pointOf,
  solveLower,
  solveUpper,
} from '@tubgap/statistics';

/** A normal law by its mean and a lower triangular factor of its covariance. */
export interface NormalLaw {
  mean: Float64Array;
  factor: readonly Float64Array[];
}

/**
 * A costly part's log-likelihood in short: bend · u² + slope · u + level, at most `most`, with u = way · (z − mean); and
 * never much below the best that was seen.
 */
export interface CostlyGuide {
  way: Float64Array;
  mean: Float64Array;
  level: number;
  slope: number;
  bend: number;
  most: number;
  best: number;
  /** Root mean square by which it is off where the likelihood matters. */
  off: number;
}

const ROUNDS = 4;
const POINTS = 80;
/** Points by which it is fitted: so far below the best at most, for further off any likelihood has another shape, and so many. */
const DEEP = 10;
const FEWEST = 60;
/** A fit that is not off by more than this is not tried further. */
const NEAR = 0.5;
/** Of the regression, in readings: without it few points in many directions would be all noise. */
const RIDGE = 4;

/**
 * A guide that calls a place hopeless which is not would hold a chain there for long: none is by more than e to this
 * power worse than the best.
 */
const HOPE = 3;

export const guideValue = (
  { way, mean, level, slope, bend, most, best }: CostlyGuide,
  point: Float64Array,
): number => {
  let u = 0;
  for (let i = 0; i < way.length; i++) u += way[i]! * (point[i]! - mean[i]!);
  const fitted = Math.min(most, level + u * (slope + bend * u));
  const least = best - HOPE;
  return Math.max(fitted, least) + Math.log1p(Math.exp(-Math.abs(fitted - least)));
};

/** Solves a small symmetric positive system. */
function solved(matrix: readonly Float64Array[], right: Float64Array): Float64Array {
  const factor = choleskyFactor(matrix);
  const out = Float64Array.from(right);
  return solveUpper(factor, solveLower(factor, out, out), out);
}

/** Weighted least squares. @param ridge  on all columns but the first */
function regression(
  rows: readonly ArrayLike<number>[],
  values: ArrayLike<number>,
  weights: ArrayLike<number>,
  ridge: number,
): Float64Array {
  const n = rows[0]!.length;
  const matrix = Array.from({ length: n }, (_, i) => {
    const row = new Float64Array(n);
    row[i] = i === 0 ? 1e-9 : ridge + 1e-9;
    return row;
  });
  const right = new Float64Array(n);
  rows.forEach((row, r) => {
    for (let i = 0; i < n; i++) {
      const weighted = weights[r]! * row[i]!;
      right[i]! += weighted * values[r]!;
      for (let k = 0; k <= i; k++) matrix[i]![k]! += weighted * row[k]!;
    }
  });
  return solved(matrix, right);
}

/**
 * Fits a costly log-likelihood along the one direction in which it falls, where it and a normal law of all other evidence
 * leave the cars: points of that law first, then of the law that the fit makes of it. Only steers.
 * @param asked  of a part that costs much, at a point
 */
export function fitCostly(
  asked: LogLikelihood,
  most: number,
  law: NormalLaw,
  numbers: NumberSource,
): { guide: CostlyGuide; points: Float64Array[] } {
  const n = law.mean.length;
  const unit: NormalLaw = {
    mean: new Float64Array(n),
    factor: law.factor.map((_, i) => Float64Array.from({ length: n }, (__, k) => Number(i === k))),
  };
  const scores: Float64Array[] = [];
  const values: number[] = [];
  let fit = {
    along: new Float64Array(n),
    level: 0,
    slope: 0,
    bend: 0,
    best: 0,
    off: Number.POSITIVE_INFINITY,
  };
  let points: Float64Array[] = [];
  for (let round = 0; round < ROUNDS; round++) {
    points = Array.from({ length: POINTS }, () => {
      const score = pointOf(unit, numbers);
      const u = score.reduce((sum, x, i) => sum + x * fit.along[i]!, 0);
      // Along the fitted direction as the fit has it, across as before.
      const steep = 1 - 2 * fit.bend;
      const shift = fit.slope / steep + u / Math.sqrt(steep) - u;
      const own = score.map((x, i) => x + shift * fit.along[i]!);
      const point = law.mean.map((middle, i) => {
        let sum = middle;
        for (let k = 0; k <= i; k++) sum += law.factor[i]![k]! * own[k]!;
        return sum;
      });
      scores.push(own);
      values.push(asked(point, Number.NEGATIVE_INFINITY));
      return point;
    });
    const order = Array.from(values.keys()).sort((a, b) => values[b]! - values[a]! || a - b);
    const top = values[order[0]!]!;
    const best = order.filter((n, rank) => rank < FEWEST || values[n]! > top - DEEP);
    const level = best.map((n) => values[n]!);
    const near = best.map((n) => scores[n]!);
    // What is likely counts, and of what is not still its side.
    const weights = level.map((value) => Math.max(0.02, Math.exp((value - top) / 2)));
    const line = regression(
      near.map((score) => [1, ...score]),
      level,
      weights,
      RIDGE,
    ).subarray(1);
    const length = Math.hypot(...line);
    const along = line.map((x) => x / (length || 1));
    const us = near.map((score) => score.reduce((sum, x, i) => sum + x * along[i]!, 0));
    const [c0 = 0, c1 = 0, c2 = 0] = regression(
      us.map((u) => [1, u, u * u]),
      level,
      weights,
      1e-6,
    );
    const bent =
      c2 <= 0
        ? [c0, c1, c2]
        : [
            ...regression(
              us.map((u) => [1, u]),
              level,
              weights,
              1e-6,
            ),
            0,
          ];
    const [base, slope, bend] = bent as [number, number, number];
    let square = 0;
    let sum = 0;
    us.forEach((u, i) => {
      square += weights[i]! * (Math.min(most, base + u * (slope + bend * u)) - level[i]!) ** 2;
      sum += weights[i]!;
    });
    fit = { along, level: base, slope, bend, best: top, off: Math.sqrt(square / sum) };
    if (round > 0 && fit.off < NEAR) break;
  }
  const { along, ...rest } = fit;
  // u in the law's own numbers is way · (z − mean): way = F⁻ᵀ along.
  const way = along.slice();
  for (let i = n - 1; i >= 0; i--) {
    for (let k = i + 1; k < n; k++) way[i]! -= law.factor[k]![i]! * way[k]!;
    way[i]! /= law.factor[i]![i]!;
  }
  return { guide: { ...rest, way, mean: law.mean, most }, points };
}
