import { studentQuantile } from './distributions/student-t.ts';
import { SOBOL_DIMENSIONS, scrambledSobolPoints } from './sobol-points.ts';

/**
 * Output of n points of the unit cube: row i of `u` is u[i·d] … u[i·d + d − 1], each the probability of an input,
 * inside (0, 1); its output goes to out[i]. Must not keep or change `u`.
 */
export type Model = (u: Float64Array, n: number, out: Float64Array) => void;

/** An index with the ends of its 95 % confidence interval; an estimate may lie a little outside 0 to 1. */
export interface IndexEstimate {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

export interface GroupIndices {
  /** Share of the variance from the group alone. */
  readonly first: IndexEstimate;
  /** Share of the variance that the group has a part in, interactions with others included. */
  readonly total: IndexEstimate;
}

export interface SobolIndices {
  readonly mean: number;
  readonly variance: number;
  /** In the order of the groups. */
  readonly groups: readonly GroupIndices[];
  readonly calls: number;
}

export interface IndexOptions {
  readonly seed: number | string;
  /** Columns of each group; default: every input a group of its own. */
  readonly groups?: readonly (readonly number[])[];
  /** Points in a repeat, a power of two from 16 up; default 1024. */
  readonly points?: number;
  /** Independent repeats, at least 4; default 8. Their scatter gives the intervals. */
  readonly repeats?: number;
}

/** Two columns of the same inputs, independent of each other: points × dimension each. */
function drawPair(dimension: number, points: number, seed: string): [Float64Array, Float64Array] {
  const column = new Float64Array(points);
  const draw = (offset: number, name: string): Float64Array => {
    const rows = new Float64Array(points * dimension);
    for (let k = 0; k < dimension; k++) {
      scrambledSobolPoints(offset + k + 1, seed, `${name} ${k}`)(0, column, points);
      for (let i = 0; i < points; i++) rows[i * dimension + k] = column[i]!;
    }
    return rows;
  };
  return [draw(0, 'a'), draw(dimension, 'b')];
}

/** Sums of one repeat, from which all indices are made. */
interface Repeat {
  readonly mean: number;
  readonly variance: number;
  readonly first: Float64Array;
  readonly total: Float64Array;
}

function repeat(
  model: Model,
  dimension: number,
  groups: readonly (readonly number[])[],
  points: number,
  seed: string,
): Repeat {
  const [a, b] = drawPair(dimension, points, seed);
  const fa = new Float64Array(points);
  const fb = new Float64Array(points);
  const fc = new Float64Array(points);
  model(a, points, fa);
  model(b, points, fb);
  let mean = 0;
  for (let i = 0; i < points; i++) mean += (fa[i]! + fb[i]!) / (2 * points);
  let variance = 0;
  for (let i = 0; i < points; i++) variance += ((fa[i]! - mean) ** 2 + (fb[i]! - mean) ** 2) / (2 * points);
  if (!Number.isFinite(variance)) throw new RangeError('model: it gave a value that is no finite number.');
  const first = new Float64Array(groups.length);
  const total = new Float64Array(groups.length);
  const c = new Float64Array(points * dimension);
  groups.forEach((group, g) => {
    c.set(a);
    for (const k of group) for (let i = 0; i < points; i++) c[i * dimension + k] = b[i * dimension + k]!;
    model(c, points, fc);
    for (let i = 0; i < points; i++) {
      first[g] = first[g]! + ((fb[i]! - mean) * (fc[i]! - fa[i]!)) / points;
      total[g] = total[g]! + (fa[i]! - fc[i]!) ** 2 / (2 * points);
    }
  });
  return { mean, variance, first, total };
}

function estimateOf(values: readonly number[]): IndexEstimate {
  const n = values.length;
  const value = values.reduce((sum, x) => sum + x, 0) / n;
  const spread = values.reduce((sum, x) => sum + (x - value) ** 2, 0) / (n - 1);
  const half = studentQuantile(0.975, n - 1) * Math.sqrt(spread / n);
  return { value, low: value - half, high: value + half };
}

function checkGroups(groups: readonly (readonly number[])[], dimension: number): void {
  for (const [g, group] of groups.entries()) {
    for (const k of group) {
      if (!(Number.isInteger(k) && k >= 0 && k < dimension)) {
        throw new RangeError(
          `groups[${g}]: read column ${k}; whole numbers from 0 to ${dimension - 1} are needed.`,
        );
      }
    }
  }
}

/**
 * First-order and total Sobol' indices of groups of independent inputs, on scrambled Sobol' points.
 * First-order: A. Saltelli, P. Annoni, I. Azzini, F. Campolongo, M. Ratto and S. Tarantola (2010), Comput. Phys.
 * Commun. 181:259, estimator (b) of table 2, outputs centred. Total: M. J. W. Jansen (1999), estimator (f) there.
 * Calls: repeats · points · (groups + 2). For an indicator as output the indices are those of failing or not.
 * @param dimension  1 to SOBOL_DIMENSIONS/2; else RangeError
 * @returns undefined when all outputs are equal, as no share of nothing means anything
 * @throws RangeError for options out of range and for a model that gives NaN or Infinity
 */
export function sobolIndices(
  model: Model,
  dimension: number,
  options: IndexOptions,
): SobolIndices | undefined {
  const { points = 1024, repeats = 8 } = options;
  const groups = options.groups ?? Array.from({ length: dimension }, (_, k) => [k]);
  if (!(Number.isInteger(dimension) && dimension >= 1 && 2 * dimension <= SOBOL_DIMENSIONS)) {
    throw new RangeError(
      `dimension: read ${dimension}; a whole number from 1 to ${SOBOL_DIMENSIONS / 2} is needed.`,
    );
  }
  if (!(points >= 16 && Number.isInteger(Math.log2(points)))) {
    throw new RangeError(`points: read ${points}; a power of two of at least 16 is needed.`);
  }
  if (!(Number.isInteger(repeats) && repeats >= 4)) {
    throw new RangeError(`repeats: read ${repeats}; a whole number of at least 4 is needed.`);
  }
  checkGroups(groups, dimension);
  const all = Array.from({ length: repeats }, (_, r) =>
    repeat(model, dimension, groups, points, `${options.seed} repeat ${r}`),
  );
  const mean = all.reduce((sum, one) => sum + one.mean, 0) / repeats;
  const variance = all.reduce((sum, one) => sum + one.variance, 0) / repeats;
  if (!(variance > 0)) return undefined;
  return {
    mean,
    variance,
    groups: groups.map((_, g) => ({
      first: estimateOf(all.map((one) => one.first[g]! / variance)),
      total: estimateOf(all.map((one) => one.total[g]! / variance)),
    })),
    calls: repeats * points * (groups.length + 2),
  };
}
