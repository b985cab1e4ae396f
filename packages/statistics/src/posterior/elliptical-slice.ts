import type { NumberSource } from './number-source.ts';

/**
 * Log-likelihood of a point of standard normal space. It may stop early and give −Infinity once it is sure to end
 * below `floor`.
 */
export type LogLikelihood = (point: Float64Array, floor: number) => number;

/** A normal law about which proposals swing: mean, and a lower triangular factor of the covariance. */
export interface Swing {
  mean: Float64Array;
  factor: readonly Float64Array[];
}

/** Where a chain stands. */
export interface ChainState {
  point: Float64Array;
  /** Log of the posterior density over the swing's, but for a constant. */
  level: number;
}

/** Shrinkings after which a point is taken to be stuck: the bracket is then far below the spacing of doubles. */
const MOST_SHRINKINGS = 200;

/** ½|z|² less ½ of the squared distance from the swing's mean in its own units. */
export function priorOverSwing(swing: Swing, point: Float64Array, scratch: Float64Array): number {
  let plain = 0;
  let own = 0;
  for (let i = 0; i < point.length; i++) {
    const row = swing.factor[i]!;
    let sum = point[i]! - swing.mean[i]!;
    for (let k = 0; k < i; k++) sum -= row[k]! * scratch[k]!;
    scratch[i] = sum / row[i]!;
    own += scratch[i]! * scratch[i]!;
    plain += point[i]! * point[i]!;
  }
  return 0.5 * (own - plain);
}

/**
 * One step of elliptical slice sampling: no tuning, no rejection, the posterior stays as it is.
 * Source: I. Murray, R. P. Adams, D. J. C. MacKay (2010), Elliptical slice sampling, AISTATS, JMLR W&CP 9:541; with
 * proposals about a fitted normal law in place of the prior: R. Nishihara, I. Murray, R. P. Adams (2014), Parallel MCMC
 * with generalized elliptical slice sampling, JMLR 15:2087, of which the normal case is taken here.
 * @param state  where the chain stands; overwritten
 * @returns likelihoods asked for
 */
export function ellipticalSliceStep(
  logLikelihood: LogLikelihood,
  swing: Swing,
  state: ChainState,
  numbers: NumberSource,
): number {
  const n = state.point.length;
  const normals = Float64Array.from({ length: n }, () => numbers.normal());
  const other = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const row = swing.factor[i]!;
    for (let k = 0; k <= i; k++) other[i]! += row[k]! * normals[k]!;
  }
  const threshold = state.level + Math.log(numbers.uniform());
  let angle = 2 * Math.PI * numbers.uniform();
  let low = angle - 2 * Math.PI;
  let high = angle;
  const proposal = new Float64Array(n);
  for (let asked = 1; asked <= MOST_SHRINKINGS; asked++) {
    const cos = Math.cos(angle);
    const sin = Math.sin(angle);
    for (let i = 0; i < n; i++) {
      const mean = swing.mean[i]!;
      proposal[i] = mean + (state.point[i]! - mean) * cos + other[i]! * sin;
    }
    const prior = priorOverSwing(swing, proposal, normals);
    const level = logLikelihood(proposal, threshold - prior) + prior;
    if (level > threshold) {
      state.point = proposal;
      state.level = level;
      return asked;
    }
    if (angle < 0) low = angle;
    else high = angle;
    angle = low + (high - low) * numbers.uniform();
  }
  return MOST_SHRINKINGS;
}
