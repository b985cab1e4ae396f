import stdlibCumulative from '@stdlib/stats-base-dists-normal-cdf';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { normalCumulative, normalQuantile, normalTail } from '../src/index.ts';

// Derived with 25-digit arithmetic (erfc), 15 digits printed. Relative tolerance 1e-13: doubles lose up to
// z²/2 · 1e-16 in exp(−z²/2) at z = 10.
const tails = [
  [1, 0.158655253931457],
  [1.96, 0.0249978951482204],
  [2, 0.0227501319481792],
  [3, 0.00134989803163009],
  [4, 3.16712418331199e-5],
  [5, 2.86651571879194e-7],
  [6, 9.86587645037698e-10],
  [7, 1.27981254388584e-12],
  [8, 6.22096057427178e-16],
  [10, 7.61985302416053e-24],
] as const;

// Derived likewise; the digits printed bound the tolerance.
const quantiles = [
  [0.25, -0.674489750196082],
  [0.1, -1.2815515655446],
  [0.05, -1.64485362695147],
  [0.025, -1.95996398454005],
  [0.005, -2.5758293035489],
  [1e-3, -3.09023230616781],
  [1e-4, -3.71901648545568],
  [1e-5, -4.26489079392282],
  [1e-6, -4.7534243088229],
  [1e-7, -5.19933758219282],
  [1e-8, -5.61200124417479],
  [1e-9, -5.99780701500769],
] as const;

test('the upper tail keeps 13 digits from 1 to 10 sd', () => {
  expect(tails.length).toBe(10);
  for (const [z, tail] of tails) {
    expect(Math.abs(normalTail(z) / tail - 1), `z = ${z}`).toBeLessThan(1e-13);
    expect(normalCumulative(-z)).toBe(normalTail(z));
    expect(normalTail(-z)).toBeCloseTo(1 - tail, 15);
  }
  // Derived: log10 Q(38) = −315.539789704; the double is subnormal there, some 8 digits are left.
  expect(Math.log10(normalTail(38))).toBeCloseTo(-315.539789704, 7);
});

test('the quantile agrees with the derived table to its last printed digit', () => {
  expect(quantiles.length).toBe(12);
  for (const [p, z] of quantiles) {
    expect(Math.abs(normalQuantile(p) / z - 1), `p = ${p}`).toBeLessThan(3e-15);
    expect(normalQuantile(1 - p)).toBeCloseTo(-z, 6);
  }
});

// @stdlib's distribution function is the oracle: another algorithm (Cephes-like erfc) and other hands. Its own
// relative error is below 1e-14 down to 10 sd; near u = 1 a double of u itself says no more than 1e-16 absolute.
test('a quantile sent through another library’s distribution function comes back', () => {
  let worst = 0;
  for (let exponent = -300; exponent < 0; exponent += 0.37) {
    const u = 10 ** exponent;
    const back = stdlibCumulative(normalQuantile(u), 0, 1);
    // d ln Φ = z dz grows with the tail, so the last digit of z weighs z² there.
    worst = Math.max(worst, Math.abs(back / u - 1) / (1 + normalQuantile(u) ** 2));
  }
  for (let u = 0.01; u < 1; u += 0.00137) {
    worst = Math.max(worst, Math.abs(stdlibCumulative(normalQuantile(u), 0, 1) - u));
  }
  expect(worst).toBeLessThan(2e-15);
});

test('the quantile rises with its probability and is odd about one half', () => {
  fc.assert(
    fc.property(fc.double({ min: 1e-300, max: 0.5, noNaN: true }), (u) => {
      expect(normalQuantile(u * 1.001)).toBeGreaterThan(normalQuantile(u));
      expect(normalQuantile(u)).toBeLessThanOrEqual(0);
    }),
  );
  expect(normalQuantile(0.0625)).toBe(-normalQuantile(0.9375));
  expect(normalQuantile(0)).toBe(-Infinity);
  expect(normalQuantile(1)).toBe(Infinity);
});

test('no number comes out of a value that is none', () => {
  for (const wrong of [NaN, -1e-9, 1.000001]) expect(() => normalQuantile(wrong)).toThrow(RangeError);
  expect(() => normalTail(NaN)).toThrow(RangeError);
});
