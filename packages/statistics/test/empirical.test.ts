import { expect, test } from 'vitest';
import {
  cumulative,
  density,
  type EmpiricalLaw,
  fillFromNormals,
  lawProblem,
  mean,
  normalQuantile,
  quantile,
  silvermanBandwidth,
  support,
  variance,
} from '../src/index.ts';

/** Ten passes of an invented car and two that were shut off, mph. */
const passes = [148.7, 150.2, 201.3, 202.2, 202.9, 203, 203.5, 203.8, 204, 204.4, 205.1, 206];
const asTheyAre: EmpiricalLaw = { kind: 'empirical', values: passes, bandwidth: 0 };
const smoothed: EmpiricalLaw = { ...asTheyAre, bandwidth: silvermanBandwidth(passes) };

// numpy 2.4 and scipy 1.17: 0.9 min(std(ddof=1), IQR/1.34) n^-0.2 with numpy's linear quartiles; roots of the mean of
// norm.cdf((t − values)/h) by brentq to 1e-13; gaussian_kde with that bandwidth, whose sums hold 12 digits.
const quantiles = [
  [0.001, 146.73924101641492],
  [0.05, 148.8012300921572],
  [0.16, 151.42497864156846],
  [0.18, 200.36114827014183],
  [0.5, 203.2106212779545],
  [0.9, 205.51970318036126],
  [0.99, 207.07753755748752],
  [0.9999, 208.6409423674688],
] as const;

test('a smoothed sample has bandwidth, quantiles and density of the kernel estimate elsewhere', () => {
  expect(smoothed.bandwidth).toBeCloseTo(0.8682811969184747, 12);
  expect(quantiles).toHaveLength(8);
  const drawn = Float64Array.from(quantiles, ([u]) => normalQuantile(u));
  fillFromNormals(smoothed, drawn, drawn, drawn.length);
  for (const [i, [u, value]] of quantiles.entries()) {
    expect(quantile(smoothed, u), `${u}`).toBeCloseTo(value, 9);
    expect(drawn[i], `${u} drawn`).toBeCloseTo(value, 8);
  }
  expect(cumulative(smoothed, 204)).toBeCloseTo(0.6664273455047041, 11);
  expect(density(smoothed, 204)).toBeCloseTo(0.20396327201408698, 11);
});

// A kernel adds its own variance to that of the values it is laid about (derived).
test('smoothing keeps the mean and adds the square of the bandwidth to the variance', () => {
  expect(mean(smoothed)).toBeCloseTo(mean(asTheyAre), 10);
  expect(variance(smoothed) - variance(asTheyAre)).toBeCloseTo(smoothed.bandwidth ** 2, 9);
});

// numpy 2.4, quantile(method='inverted_cdf'): type 1 of R. J. Hyndman and Y. Fan (1996), Am. Stat. 50:361.
test('a sample as it is gives its own values and no others', () => {
  const shares = [0.05, 0.1, 0.5, 0.95];
  expect(shares.map((u) => quantile(asTheyAre, u))).toEqual([148.7, 150.2, 203, 206]);
  const drawn = Float64Array.from(shares, normalQuantile);
  fillFromNormals(asTheyAre, drawn, drawn, shares.length);
  expect([...drawn]).toEqual([148.7, 150.2, 203, 206]);
  expect(support(asTheyAre)).toEqual({ low: 148.7, high: 206 });
  expect(cumulative(asTheyAre, 203)).toBe(0.5);
});

// Between the passes and those shut off hardly a draw lies: a table that went through that leap would give values there.
test('the table of a smoothed sample follows the exact quantile across a gap', () => {
  const normals = Float64Array.from({ length: 2000 }, (_, i) => -1.5 + i / 1000);
  const drawn = normals.slice();
  fillFromNormals(smoothed, drawn, drawn, drawn.length);
  for (let i = 1; i < drawn.length; i++) expect(drawn[i]).toBeGreaterThanOrEqual(drawn[i - 1]! - 1e-8);
  expect(drawn.filter((value) => value > 155 && value < 197)).toHaveLength(0);
});

test('values that do not rise, or lie below the end, are refused', () => {
  expect(lawProblem({ ...smoothed, values: [2, 1] })).toBe('values: read 1 after 2; they must rise.');
  expect(lawProblem({ ...smoothed, low: 149 })).toBe(
    'low: read 149; at most the least value, 148.7, is needed.',
  );
});
