import { normalQuantile } from './normal.ts';

/**
 * The beta law's distribution function and its inverse: what intervals of a proportion and Student's t rest on.
 * The argument is the logit y = ln(x/(1 − x)), so that x and 1 − x are both exact however near to an end.
 */

const SHIFT = 16;

/**
 * ln Γ(z) − [(z − ½) ln z − z + ½ ln 2π], z > 0: what Stirling's formula leaves out. Asymptotic series
 * (Abramowitz & Stegun 1964, 6.1.41), lifted to z ≥ 16 by the recurrence of Γ.
 */
function stirlingRest(z: number): number {
  let rest = 0;
  let x = z;
  while (x < SHIFT) {
    rest += (x + 0.5) * Math.log1p(1 / x) - 1;
    x += 1;
  }
  const y = 1 / (x * x);
  return rest + (1 / 12 - y * (1 / 360 - y * (1 / 1260 - y * (1 / 1680 - y / 1188)))) / x;
}

/** v ln(v/m) + m − v without cancellation where v is near m (after C. Loader 2000, binomial probabilities). */
function deviance(v: number, m: number): number {
  if (Math.abs(v - m) > 0.1 * (v + m)) return v * Math.log(v / m) + m - v;
  const ratio = (v - m) / (v + m);
  let sum = (v - m) * ratio;
  let term = 2 * v * ratio;
  for (let k = 3; ; k += 2) {
    term *= ratio * ratio;
    const next = sum + term / k;
    if (next === sum) return sum;
    sum = next;
  }
}

/** The part of ln(x^a (1−x)^b / B(a, b)) that does not depend on x. */
function logScale(a: number, b: number): number {
  const stirling = stirlingRest(a + b) - stirlingRest(a) - stirlingRest(b);
  return 0.5 * Math.log(((a / (a + b)) * b) / (2 * Math.PI)) + stirling;
}

/** Logarithm of the beta function B(a, b), a and b > 0. */
export function logBeta(a: number, b: number): number {
  return a * Math.log(a / (a + b)) + b * Math.log(b / (a + b)) - logScale(a, b);
}

/** x^a c^b / B(a, b), c = 1 − x: the derivative of the distribution function with respect to the logit of x. */
function slope(x: number, c: number, a: number, b: number, scale: number): number {
  return Math.exp(scale - deviance(a, (a + b) * x) - deviance(b, (a + b) * c));
}

/** Continued fraction of a B I_x(a, b) / (x^a c^b) by the modified Lentz method (Didonato & Morris 1992 use the same fraction). */
function fraction(x: number, a: number, b: number): number {
  const tiny = 1e-300;
  let c = 1;
  let d = 1 - ((a + b) * x) / (a + 1);
  d = 1 / (Math.abs(d) < tiny ? tiny : d);
  let value = d;
  // About √max(a, b) steps are needed; the limit only guards against a loop without end.
  for (let m = 1; m < 10_000_000; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 + even * d;
    c = 1 + even / c;
    d = 1 / (Math.abs(d) < tiny ? tiny : d);
    c = Math.abs(c) < tiny ? tiny : c;
    value *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 + odd * d;
    c = 1 + odd / c;
    d = 1 / (Math.abs(d) < tiny ? tiny : d);
    c = Math.abs(c) < tiny ? tiny : c;
    const step = d * c;
    value *= step;
    if (Math.abs(step - 1) < 1e-15) break;
  }
  return value;
}

/**
 * Probability that a beta(a, b) number lies below x, 1 (the regularised incomplete beta function I_x(a, b)).
 * @param logit  ln(x/(1 − x)), any number or ±Infinity
 * @param a, b   above 0, finite
 */
export function betaCumulative(logit: number, a: number, b: number): number {
  const x = 1 / (1 + Math.exp(-logit));
  const c = 1 / (1 + Math.exp(logit));
  if (x === 0 || c === 0) return x;
  const height = slope(x, c, a, b, logScale(a, b));
  return x < (a + 1) / (a + b + 2) ? (height * fraction(x, a, b)) / a : 1 - (height * fraction(c, b, a)) / b;
}

/**
 * Logit of the beta(a, b) quantile whose lower tail is p, 0 < p ≤ ½. Newton's method on ln I, which is concave in
 * the logit, inside a bracket that it narrows. For an upper tail swap a and b and change the sign of the answer.
 */
export function betaLogitQuantile(p: number, a: number, b: number): number {
  const scale = logScale(a, b);
  // Power law of the lower end; for a and b ≥ 1 a normal law of the logit starts nearer.
  let y =
    a >= 1 && b >= 1
      ? Math.log(a / b) + normalQuantile(p) * Math.sqrt(1 / a + 1 / b)
      : (Math.log(p * a) + logBeta(a, b)) / a;
  let low = -Infinity;
  let high = Infinity;
  for (let step = 0; step < 200; step++) {
    const x = 1 / (1 + Math.exp(-y));
    const c = 1 / (1 + Math.exp(y));
    const height = slope(x, c, a, b, scale);
    const cumulative =
      x < (a + 1) / (a + b + 2) ? (height * fraction(x, a, b)) / a : 1 - (height * fraction(c, b, a)) / b;
    const miss = Math.log(cumulative / p);
    if (miss < 0) low = y;
    else high = y;
    const next = y - (miss * cumulative) / height;
    if (Math.abs(next - y) <= 1e-15 * Math.max(1, Math.abs(y))) return next;
    if (next > low && next < high) y = next;
    else if (low === -Infinity) y = high - 2 * (1 + Math.abs(high));
    else y = high === Infinity ? low + 1 : (low + high) / 2;
  }
  return y;
}
