import { normalTail } from '../normal.ts';

/**
 * A mixture of standard normal laws about centres, and one about the origin with the share that is left: what failing
 * points are drawn from. The share of the origin bounds every weight, so that a region without a centre can inflate
 * the variance but not without limit (defensive mixture, T. Hesterberg 1995).
 */
export interface Mixture {
  readonly dimension: number;
  readonly centres: readonly Float64Array[];
  /** One for each centre; with `origin` they add up to 1. */
  readonly shares: Float64Array;
  readonly origin: number;
}

/** Share of the law about the origin. */
const ORIGIN_SHARE = 0.1;

/** A centre's law over the standard normal law at the point that begins at `offset`. */
function likelihood(centre: Float64Array, rows: Float64Array, offset: number): number {
  let exponent = 0;
  for (let k = 0; k < centre.length; k++) exponent += centre[k]! * (rows[offset + k]! - centre[k]! / 2);
  return Math.exp(exponent);
}

/** Weight of row i of `rows`: standard normal density over the mixture's, at most 1/origin. */
export function weightOf(mixture: Mixture, rows: Float64Array, i: number): number {
  const offset = i * mixture.dimension;
  let density = mixture.origin;
  for (let c = 0; c < mixture.centres.length; c++) {
    density += mixture.shares[c]! * likelihood(mixture.centres[c]!, rows, offset);
  }
  return 1 / density;
}

/** A mixture with equal shares of the centres; without a centre it is the standard normal law. */
export function evenMixture(dimension: number, centres: readonly Float64Array[]): Mixture {
  const origin = centres.length === 0 ? 1 : ORIGIN_SHARE;
  const shares = new Float64Array(centres.length).fill((1 - origin) / centres.length);
  return { dimension, centres, shares, origin };
}

/**
 * Shares for the centres, half by how well they account for the failing points given (expectation and maximisation,
 * the cross-entropy choice), half by Φ(−distance), as the points may have missed a region.
 */
export function fittedMixture(mixture: Mixture, failing: Float64Array, count: number): Mixture {
  const { dimension, centres, origin } = mixture;
  if (centres.length <= 1 || count === 0) return mixture;
  const table = new Float64Array(count * centres.length);
  for (let i = 0; i < count; i++) {
    centres.forEach((centre, c) => {
      table[i * centres.length + c] = likelihood(centre, failing, i * dimension);
    });
  }
  let fitted = new Float64Array(centres.length).fill(1 / centres.length);
  for (let round = 0; round < 20; round++) {
    const next = new Float64Array(centres.length);
    for (let i = 0; i < count; i++) {
      let density = 0;
      for (let c = 0; c < centres.length; c++) density += fitted[c]! * table[i * centres.length + c]!;
      for (let c = 0; c < centres.length; c++) {
        next[c] = next[c]! + (fitted[c]! * table[i * centres.length + c]!) / (density * count);
      }
    }
    fitted = next;
  }
  const near = Float64Array.from(centres, (centre) => normalTail(Math.hypot(...centre)));
  const total = near.reduce((sum, value) => sum + value, 0);
  const shares = fitted.map((share, c) => (1 - origin) * (share / 2 + near[c]! / total / 2));
  return { dimension, centres, origin, shares };
}

/** Mean weight of failing points over the probability: calls that importance sampling needs, times the square of the CoV. */
export function drawsPerFailure(
  mixture: Mixture,
  failing: Float64Array,
  count: number,
  probability: number,
): number {
  let sum = 0;
  for (let i = 0; i < count; i++) sum += weightOf(mixture, failing, i);
  return sum / count / probability;
}
