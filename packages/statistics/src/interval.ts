import { betaLogitQuantile } from './incomplete-beta.ts';

/** An interval of a probability, 0 to 1. */
export interface Interval {
  readonly low: number;
  readonly high: number;
}

function checkCounts(hits: number, n: number, level: number): void {
  if (!(Number.isSafeInteger(n) && n >= 1)) {
    throw new RangeError(`n: read ${n}; a whole number of at least 1 is needed.`);
  }
  if (!(Number.isSafeInteger(hits) && hits >= 0 && hits <= n)) {
    throw new RangeError(`hits: read ${hits}; a whole number from 0 to n, ${n}, is needed.`);
  }
  if (!(level > 0 && level < 1)) {
    throw new RangeError(`level: read ${level}; a confidence level inside 0 to 1 is needed.`);
  }
}

/**
 * Exact two-sided confidence interval of a proportion: it holds the true value in at least `level` of all
 * repeats, whatever that value is. Each side gets (1 − level)/2, at 0 and n hits too.
 * Source: C. J. Clopper and E. S. Pearson (1934), Biometrika 26:404.
 * @param hits   whole, 0 to n
 * @param n      whole, at least 1
 * @param level  inside (0, 1)
 * @throws RangeError outside these
 * @example clopperPearson(0, 100)  // { low: 0, high: 0.0362166926452 }
 */
export function clopperPearson(hits: number, n: number, level = 0.95): Interval {
  checkCounts(hits, n, level);
  const side = (1 - level) / 2;
  return { low: exactLow(hits, n, side), high: exactHigh(hits, n, side) };
}

function exactLow(hits: number, n: number, side: number): number {
  if (hits === 0) return 0;
  if (hits === n) return Math.exp(Math.log(side) / n);
  return 1 / (1 + Math.exp(-betaLogitQuantile(side, hits, n - hits + 1)));
}

function exactHigh(hits: number, n: number, side: number): number {
  if (hits === n) return 1;
  if (hits === 0) return -Math.expm1(Math.log(side) / n);
  return 1 / (1 + Math.exp(betaLogitQuantile(side, n - hits, hits + 1)));
}

/**
 * Interval of a positive quantity whose estimate has a coefficient of variation: taken on the logarithm, as a small
 * probability is off by factors and its interval must not reach below 0. Ends at 1.
 * @param deviate  standard errors to either side; Student's t where few terms carry the estimate
 */
export function relativeInterval(estimate: number, cov: number, deviate: number): Interval {
  const spread = Math.sqrt(Math.log1p(cov * cov));
  return {
    low: estimate * Math.exp(-deviate * spread),
    high: Math.min(1, estimate * Math.exp(deviate * spread)),
  };
}

/**
 * Smallest number of draws that can support a risk: with no hit among them, the upper end of clopperPearson's
 * two-sided interval is at most `risk`. One hit and more are needed.
 * @param risk   inside (0, 1); else RangeError
 * @param level  inside (0, 1); else RangeError
 * @example drawsToSupport(1e-3)  // 3688
 */
export function drawsToSupport(risk: number, level = 0.95): number {
  if (!(risk > 0 && risk < 1)) {
    throw new RangeError(`risk: read ${risk}; a probability inside 0 to 1 is needed.`);
  }
  checkCounts(0, 1, level);
  const bound = (n: number): number => clopperPearson(0, n, level).high;
  let n = Math.max(1, Math.ceil(Math.log((1 - level) / 2) / Math.log1p(-risk)));
  while (n > 1 && bound(n - 1) <= risk) n -= 1;
  while (bound(n) > risk) n += 1;
  return n;
}

/**
 * About how many draws tell a probability near `estimate` from `limit`: with as large a share of hits among them the
 * interval of clopperPearson lies on one side of it. Without hits the same as drawsToSupport. Found by doubling.
 * @param estimate  0 to 1
 * @param limit     inside (0, 1); else RangeError
 * @param most      what is said where no fewer tell them apart
 */
export function drawsToResolve(estimate: number, limit: number, most: number): number {
  let n = drawsToSupport(limit);
  while (n < most) {
    const { low, high } = clopperPearson(Math.round(estimate * n), n);
    if (high <= limit || low > limit) return n;
    n *= 2;
  }
  return Math.max(n, most);
}
