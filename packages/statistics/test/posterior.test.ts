import { describe, expect, it, test } from 'vitest';
import {
  chainDiagnostics,
  chainsOf,
  choleskyFactor,
  kolmogorovTail,
  type LogLikelihood,
  normalSummary,
  numberSource,
  samplePosterior,
} from '../src/index.ts';

const moments = (values: readonly number[]) => {
  const mean = values.reduce((sum, x) => sum + x, 0) / values.length;
  const variance = values.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (values.length - 1);
  return { mean, sd: Math.sqrt(variance) };
};

const pooled = (posterior: ReturnType<typeof samplePosterior>, k: number): number[] =>
  chainsOf(posterior, (point) => point[k]!).flatMap((chain) => Array.from(chain));

describe('posteriors that are known', () => {
  // Derived: prior N(0, 1), reading 1.5 with sd s gives N(1.5/(1 + s²), s²/(1 + s²)).
  it.each([2, 0.3, 0.01])('one reading with sd %f gives the conjugate normal law', (s) => {
    const posterior = samplePosterior((point) => -0.5 * ((point[0]! - 1.5) / s) ** 2, 1, { seed: 1 });
    const { mean, sd } = moments(pooled(posterior, 0));
    const { bulk, rHat } = chainDiagnostics(chainsOf(posterior, (point) => point[0]!));
    const truth = { mean: 1.5 / (1 + s * s), sd: s / Math.sqrt(1 + s * s) };
    expect(rHat).toBeLessThan(1.02);
    expect(bulk).toBeGreaterThan(1000);
    expect(Math.abs(mean - truth.mean)).toBeLessThan((4 * truth.sd) / Math.sqrt(bulk));
    expect(Math.abs(sd / truth.sd - 1)).toBeLessThan(4 / Math.sqrt(2 * bulk));
  });

  it('a line through readings gives the posterior of linear regression, correlation and all', () => {
    // Derived: precision I + XᵀX/s², mean = covariance · Xᵀy/s².
    const x = [0, 1, 2, 3, 5, 8];
    const y = [0.9, 1.3, 1.4, 2.1, 2.6, 3.9];
    const s = 0.2;
    const likelihood: LogLikelihood = (point) =>
      x.reduce((sum, value, i) => sum - 0.5 * ((y[i]! - point[0]! - point[1]! * value) / s) ** 2, 0);
    const posterior = samplePosterior(likelihood, 2, { seed: 5, draws: 2000 });
    const p = [
      1 + x.length / s ** 2,
      x.reduce((sum, v) => sum + v, 0) / s ** 2,
      1 + x.reduce((sum, v) => sum + v * v, 0) / s ** 2,
    ];
    const q = [
      y.reduce((sum, v) => sum + v, 0) / s ** 2,
      x.reduce((sum, v, i) => sum + v * y[i]!, 0) / s ** 2,
    ];
    const det = p[0]! * p[2]! - p[1]! ** 2;
    const truth = {
      mean: [(p[2]! * q[0]! - p[1]! * q[1]!) / det, (p[0]! * q[1]! - p[1]! * q[0]!) / det],
      sd: [Math.sqrt(p[2]! / det), Math.sqrt(p[0]! / det)],
      correlation: -p[1]! / Math.sqrt(p[0]! * p[2]!),
    };
    const [a, b] = [pooled(posterior, 0), pooled(posterior, 1)];
    [a, b].forEach((values, k) => {
      const { mean, sd } = moments(values);
      expect(Math.abs(mean - truth.mean[k]!)).toBeLessThan(0.08 * truth.sd[k]!);
      expect(Math.abs(sd / truth.sd[k]! - 1)).toBeLessThan(0.05);
    });
    const [ma, mb] = [moments(a), moments(b)];
    const product = a.reduce((sum, v, i) => sum + (v - ma.mean) * (b[i]! - mb.mean), 0) / a.length;
    expect(Math.abs(product / (ma.sd * mb.sd) - truth.correlation)).toBeLessThan(0.02);
  });

  it('a one-sided reading gives the truncated normal law', () => {
    // Derived: N(0, 1) cut below 1 has mean φ(1)/Q(1) = 1.525135276160981.
    const likelihood: LogLikelihood = (point) => (point[0]! > 1 ? 0 : Number.NEGATIVE_INFINITY);
    const posterior = samplePosterior(likelihood, 1, { seed: 2, draws: 4000 });
    const values = pooled(posterior, 0);
    expect(Math.min(...values)).toBeGreaterThan(1);
    expect(moments(values).mean).toBeGreaterThan(1.49);
    expect(moments(values).mean).toBeLessThan(1.56);
  });

  it('refuses evidence that no draw of the prior can have', () => {
    expect(() => samplePosterior(() => Number.NEGATIVE_INFINITY, 2, { seed: 1 })).toThrow(/no start/);
  });

  it('the same seed gives the same draws, another seed others', () => {
    const draw = (seed: number) =>
      samplePosterior((point) => -(point[0]! ** 2), 1, { seed, draws: 20, pilot: 10 }).chains;
    expect(draw(3)).toEqual(draw(3));
    expect(draw(3)).not.toEqual(draw(4));
  });
});

/**
 * Simulation-based calibration (Talts, Betancourt, Simpson, Vehtari and Gelman 2018, arXiv:1804.06788): when truth comes
 * from the prior and readings from the truth, the truth's place among the posterior's draws is uniform.
 * @param wrong  factor on the reading's sd in the likelihood alone
 */
function placesOfTruth(wrong: number): Float64Array {
  const numbers = numberSource(11, 'truths');
  return Float64Array.from({ length: 200 }, (_, n) => {
    const truth = [numbers.normal(), numbers.normal(), numbers.normal()];
    // Curved, with a coordinate that the readings hardly see.
    const curve = (a: number, b: number): number[] => [Math.exp(0.4 * a), a * b, b + 0.1 * a * a];
    const seen = curve(truth[0]!, truth[1]!).map((value) => value + 0.3 * numbers.normal());
    const likelihood: LogLikelihood = (point) =>
      curve(point[0]!, point[1]!).reduce(
        (sum, value, i) => sum - 0.5 * ((seen[i]! - value) / (0.3 * wrong)) ** 2,
        0,
      );
    const posterior = samplePosterior(likelihood, 3, { seed: n, draws: 200, pilot: 80, starts: 64 });
    const level = (point: ArrayLike<number>): number => point[0]! + 0.5 * point[1]!;
    const own = level(truth);
    const draws = chainsOf(posterior, level).flatMap((chain) => Array.from(chain));
    return (draws.filter((value) => value < own).length + 0.5) / (draws.length + 1);
  });
}

/** Chance of a distance from the uniform law at least that large. */
const uniformity = (places: Float64Array): number => {
  const sorted = places.slice().sort();
  let distance = 0;
  sorted.forEach((value, i) => {
    distance = Math.max(
      distance,
      Math.abs(value - i / sorted.length),
      Math.abs(value - (i + 1) / sorted.length),
    );
  });
  return kolmogorovTail(Math.sqrt(sorted.length) * distance);
};

describe('calibration over 200 simulated truths', () => {
  it('the truth stands anywhere among the draws', () =>
    expect(uniformity(placesOfTruth(1))).toBeGreaterThan(0.01));
  it('a likelihood that trusts its readings too much is found out', () =>
    expect(uniformity(placesOfTruth(0.4))).toBeLessThan(0.001));
});

test('a summary gives back medians, spreads and correlation, skewed or not', () => {
  const numbers = numberSource(4, 'summary');
  const n = 20_000;
  const a = new Float64Array(n);
  const b = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const z = numbers.normal();
    a[i] = 0.5 + (z < 0 ? 0.2 : 0.6) * z;
    b[i] = -1 + 0.3 * (0.8 * z + 0.6 * numbers.normal());
  }
  const { coordinates, factor } = normalSummary([a, b]);
  // Tails count with their wider quantile, so spreads come out a little large, never small.
  expect(coordinates[0]!.middle).toBeCloseTo(0.5, 1);
  expect(coordinates[0]!.below).toBeGreaterThan(0.195);
  expect(coordinates[0]!.below).toBeLessThan(0.22);
  expect(coordinates[0]!.above).toBeGreaterThan(0.59);
  expect(coordinates[0]!.above).toBeLessThan(0.64);
  expect(factor[1]![0]).toBeGreaterThan(0.77);
  expect(factor[1]![0]).toBeLessThan(0.83);
  expect(Math.hypot(...factor[1]!)).toBeCloseTo(1, 12);
});

test('a matrix that is not positive definite is refused', () => {
  expect(() =>
    choleskyFactor([
      [1, 2],
      [2, 1],
    ]),
  ).toThrow(/positive definite/);
});
