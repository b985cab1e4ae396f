import type { Interval } from '../interval.ts';
import { normalQuantile } from '../normal.ts';

/**
 * Margins of n points of standard normal space: row i of `u` is u[i·d] … u[i·d + d − 1], its margin goes to out[i].
 * A point fails (touches) where the margin is below 0. Must not keep or change `u`.
 */
export type Margin = (u: Float64Array, n: number, out: Float64Array) => void;

export type Method = 'plain sampling' | 'subset simulation' | 'importance sampling' | 'line sampling';

/** A failure probability and how far it can be relied on. */
export interface Estimate {
  readonly probability: number;
  /** Coefficient of variation of the estimate itself, standard error over value; Infinity when nothing failed. */
  readonly cov: number;
  /** Ends of the 95 % confidence interval. */
  readonly low: number;
  readonly high: number;
  /** Evaluations of the margin, searches included. */
  readonly calls: number;
  /** Failing draws of equal weight that would say as much. */
  readonly effectiveDraws: number;
  /** Separate places in which failure was found; 0 where the method does not look for them. */
  readonly regions: number;
  /** Whether the figures may be acted on; if not, `reason` says why. */
  readonly trusted: boolean;
  readonly reason?: string;
  readonly method: Method;
}

/** A margin that counts its calls and refuses NaN. */
export interface CountedMargin {
  readonly dimension: number;
  readonly evaluate: Margin;
  readonly calls: () => number;
}

/**
 * @param dimension  whole, at least 1; else RangeError
 * @throws RangeError, when called, for a margin that gives NaN
 */
export function countedMargin(margin: Margin, dimension: number): CountedMargin {
  if (!(Number.isInteger(dimension) && dimension >= 1)) {
    throw new RangeError(`dimension: read ${dimension}; a whole number of at least 1 is needed.`);
  }
  let calls = 0;
  return {
    dimension,
    calls: () => calls,
    evaluate: (u, n, out) => {
      margin(u, n, out);
      calls += n;
      for (let i = 0; i < n; i++) {
        if (Number.isNaN(out[i]))
          throw new RangeError('margin: it gave NaN; a number is needed at every point.');
      }
    },
  };
}

/**
 * 95 % interval of a positive quantity whose estimate has a coefficient of variation: taken on the logarithm, as a
 * small probability is off by factors and its interval must not reach below 0. Ends at 1.
 * @param deviate  the 97.5 % point to take; Student's t where few terms carry the estimate
 * @param shift    standard errors by which both ends move up, for a skew estimate
 */
export function relativeInterval(
  probability: number,
  cov: number,
  deviate = normalQuantile(0.975),
  shift = 0,
): Interval {
  const spread = Math.sqrt(Math.log1p(cov * cov));
  return {
    low: probability * Math.exp((shift - deviate) * spread),
    high: Math.min(1, probability * Math.exp((shift + deviate) * spread)),
  };
}
