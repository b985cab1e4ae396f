import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import {
  cumulative,
  density,
  fillFromNormals,
  type Law,
  lawProblem,
  mean,
  normalQuantile,
  normalTail,
  type PlainLaw,
  quantile,
  scaleLaw,
  support,
  variance,
} from '../src/index.ts';

const updated = (from: PlainLaw, middle: number, below: number, above: number): Law => ({
  kind: 'updated',
  from,
  middle,
  below,
  above,
});

const fillOne = (law: Law, z: number): number => {
  const one = Float64Array.of(z);
  fillFromNormals(law, one, one, 1);
  return one[0]!;
};

const FROM: readonly PlainLaw[] = [
  { kind: 'normal', mean: 3, sd: 0.5 },
  { kind: 'log-normal', median: 0.036, cov: 0.25 },
  { kind: 'uniform', low: 2, high: 5 },
  { kind: 'triangular', low: 1, mode: 2, high: 4 },
  { kind: 'truncated-normal', mean: 0.25, sd: 0.15, low: 0, high: Infinity },
  { kind: 'student-t', mean: 10, scale: 0.2, dof: 3 },
];

describe('a law after learning', () => {
  it('is the law it started from when nothing was learned', () => {
    for (const from of FROM) {
      const law = updated(from, 0, 1, 1);
      for (const u of [1e-6, 0.01, 0.3, 0.5, 0.9, 0.9999]) {
        expect(quantile(law, u) / quantile(from, u)).toBeCloseTo(1, 9);
      }
      expect(mean(law) / mean(from)).toBeCloseTo(1, 3);
    }
  });

  // Derived: a normal law in a normal law's scores is normal, mean μ + mσ, sd sσ; the log of a log-normal likewise.
  it('of a normal law is the normal law with its middle and spread', () => {
    const law = updated({ kind: 'normal', mean: 3, sd: 0.5 }, -0.8, 0.4, 0.4);
    const truth: Law = { kind: 'normal', mean: 2.6, sd: 0.2 };
    for (const u of [0.001, 0.2, 0.5, 0.97]) expect(quantile(law, u)).toBeCloseTo(quantile(truth, u), 9);
    for (const x of [2, 2.5, 2.6, 3.1]) {
      expect(cumulative(law, x)).toBeCloseTo(cumulative(truth, x), 9);
      expect(density(law, x)).toBeCloseTo(density(truth, x), 8);
    }
    expect(mean(law)).toBeCloseTo(2.6, 9);
    expect(variance(law)).toBeCloseTo(0.04, 9);
  });

  // Derived: of a normal law it is the mixture of two normal laws, whose moments and shares are sums.
  it('that may not hold is the mixture of what was learned and what it started from, in both tails', () => {
    const from: PlainLaw = { kind: 'normal', mean: 3, sd: 0.5 };
    const law: Law = { kind: 'updated', from, middle: -0.8, below: 0.4, above: 0.4, apart: 0.05 };
    const learned: Law = { kind: 'normal', mean: 2.6, sd: 0.2 };
    for (const x of [0.2, 2, 2.5, 2.6, 3.1, 4.4, 6]) {
      const share = 0.95 * cumulative(learned, x) + 0.05 * cumulative(from, x);
      expect(cumulative(law, x)).toBeCloseTo(share, 12);
      expect(density(law, x)).toBeCloseTo(0.95 * density(learned, x) + 0.05 * density(from, x), 12);
    }
    for (const z of [-7, -4, -2, -0.3, 0, 0.5, 1.7, 3, 5, 7]) {
      const x = fillOne(law, z);
      const tail = 0.95 * normalTail((x - 2.6) / 0.2) + 0.05 * normalTail((x - 3) / 0.5);
      const head = 0.95 * normalTail((2.6 - x) / 0.2) + 0.05 * normalTail((3 - x) / 0.5);
      expect((z < 0 ? head : tail) / normalTail(Math.abs(z))).toBeCloseTo(1, 11);
    }
    expect(mean(law)).toBeCloseTo(0.95 * 2.6 + 0.05 * 3, 9);
    expect(variance(law)).toBeCloseTo(0.95 * 0.04 + 0.05 * 0.25 + 0.95 * 0.05 * 0.16, 8);
    expect(lawProblem({ ...law, apart: 1 })).toMatch(/apart/);
  });

  it('of a log-normal law is the log-normal law with the logarithm’s middle and spread', () => {
    const sd = Math.sqrt(Math.log1p(0.25 ** 2));
    const law = updated({ kind: 'log-normal', median: 0.036, cov: 0.25 }, 0.6, 0.3, 0.3);
    const truth: Law = {
      kind: 'log-normal',
      median: 0.036 * Math.exp(0.6 * sd),
      cov: Math.sqrt(Math.expm1((0.3 * sd) ** 2)),
    };
    for (const u of [0.001, 0.2, 0.5, 0.97]) expect(quantile(law, u) / quantile(truth, u)).toBeCloseTo(1, 9);
    expect(mean(law) / mean(truth)).toBeCloseTo(1, 8);
  });

  it('has its own spread on either side of its middle and keeps the first law’s ends', () => {
    const law = updated({ kind: 'uniform', low: 2, high: 5 }, 0.5, 0.2, 0.9);
    const up = quantile(law, 0.9);
    const down = quantile(law, 0.1);
    const z = normalQuantile(0.9);
    expect(up).toBeCloseTo(quantile(law.kind === 'updated' ? law.from : law, cumulativeOf(0.5 + 0.9 * z)), 9);
    expect(down).toBeCloseTo(
      quantile(law.kind === 'updated' ? law.from : law, cumulativeOf(0.5 - 0.2 * z)),
      9,
    );
    expect(support(law)).toEqual({ low: 2, high: 5 });
  });

  it('says what is wrong with it', () => {
    expect(lawProblem(updated({ kind: 'normal', mean: 0, sd: 1 }, 0, 0, 1))).toMatch(/below/);
    expect(lawProblem(updated({ kind: 'normal', mean: 0, sd: -1 }, 0, 1, 1))).toMatch(/sd/);
    expect(lawProblem(updated({ kind: 'normal', mean: 0, sd: 1 }, Number.NaN, 1, 1))).toMatch(/middle/);
  });
});

const cumulativeOf = (z: number): number => cumulative({ kind: 'normal', mean: 0, sd: 1 }, z);

const laws = fc.record({
  from: fc.constantFrom(...FROM),
  middle: fc.double({ min: -2, max: 2, noNaN: true }),
  below: fc.double({ min: 0.05, max: 1.5, noNaN: true }),
  above: fc.double({ min: 0.05, max: 1.5, noNaN: true }),
});

test('values rise with probability, agree in bulk, and scale with the law', () => {
  fc.assert(
    fc.property(
      laws,
      fc.double({ min: 0.001, max: 0.998, noNaN: true }),
      ({ from, middle, below, above }, u) => {
        const law = updated(from, middle, below, above);
        const value = quantile(law, u);
        expect(quantile(law, u + 0.001)).toBeGreaterThanOrEqual(value);
        const normals = Float64Array.of(normalQuantile(u));
        fillFromNormals(law, normals, normals, 1);
        expect(normals[0]! / value).toBeCloseTo(1, 9);
        expect(quantile(scaleLaw(law, 2, 0), u) / value).toBeCloseTo(2, 9);
      },
    ),
    { numRuns: 300 },
  );
});
