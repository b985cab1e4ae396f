import fc from 'fast-check';
import { expect, test } from 'vitest';
import { seasonProbability } from '../src/index.ts';

/** C(n, k) as a product, exact enough below 2^53. */
function choose(n: number, k: number): number {
  let value = 1;
  for (let i = 1; i <= k; i++) value = (value * (n - k + i)) / i;
  return value;
}

test('the season estimate agrees with the ratio of binomial coefficients', () => {
  // Worked by hand: 1 − (40·39·38)/(60·59·58); six digits.
  expect(seasonProbability(3, 60, 20)).toBeCloseTo(0.71128, 6);
  for (const [k, m, n] of [
    [1, 10, 3],
    [4, 30, 11],
    [17, 40, 2],
  ] as const) {
    expect(seasonProbability(k, m, n)).toBeCloseTo(1 - choose(m - k, n) / choose(m, n), 12);
  }
  expect(seasonProbability(0, 60, 20)).toBe(0);
  expect(seasonProbability(41, 60, 20)).toBe(1);
});

// Derived: for k binomial(M, p) the mean of the estimate is 1 − (1 − p)^N exactly; the plug-in's mean is lower.
test('the season estimate is unbiased and the plug-in is too low', () => {
  const [m, n, p] = [30, 12, 0.07];
  let estimate = 0;
  let plugIn = 0;
  let weight = (1 - p) ** m;
  for (let k = 0; k <= m; k++) {
    estimate += weight * seasonProbability(k, m, n);
    plugIn += weight * (1 - (1 - k / m) ** n);
    weight *= ((m - k) / (k + 1)) * (p / (1 - p));
  }
  expect(estimate).toBeCloseTo(1 - (1 - p) ** n, 12);
  expect(plugIn).toBeLessThan(1 - (1 - p) ** n - 0.01);
});

test('more touches or a longer season never lower the risk', () => {
  const counts = fc
    .tuple(fc.integer({ min: 2, max: 10_000 }), fc.nat(), fc.nat())
    .map(([m, k, n]) => [m, k % m, 1 + (n % (m - 1))] as const);
  fc.assert(
    fc.property(counts, ([m, k, n]) => {
      const risk = seasonProbability(k, m, n);
      expect(risk).toBeGreaterThanOrEqual(0);
      expect(seasonProbability(k + 1, m, n)).toBeGreaterThanOrEqual(risk);
      expect(seasonProbability(k, m, n + 1)).toBeGreaterThanOrEqual(risk);
    }),
  );
});

test('a season longer than the simulated runs is refused', () => {
  expect(() => seasonProbability(1, 10, 11)).toThrow(/runs: read 10/);
  expect(() => seasonProbability(11, 10, 2)).toThrow(/touches: read 11/);
});
