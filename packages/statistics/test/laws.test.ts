import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  centralValue,
  cumulative,
  density,
  fillFromNormals,
  isBounded,
  isSpread,
  type Law,
  lawProblem,
  mean,
  normalCumulative,
  normalQuantile,
  normalTail,
  quantile,
  scaleLaw,
  studentCumulative,
  support,
  variance,
} from '../src/index.ts';

const cut = (m: number, sd: number, low: number, high: number): Law => {
  return { kind: 'truncated-normal', mean: m, sd, low, high };
};
const triangle = (low: number, mode: number, high: number): Law => ({ kind: 'triangular', low, mode, high });
const logNormal = (median: number, logSd: number): Law => {
  return { kind: 'log-normal', median, cov: Math.sqrt(Math.expm1(logSd * logSd)) };
};

// Derived in closed form with 25-digit arithmetic (truncated normal, triangular, log-normal) or, for Student's t
// and the uniform, from the textbook formulas dof/(dof − 2) and width²/12. Relative tolerance 1e-12: 15 digits
// are printed, two or three are lost where a truncated variance subtracts.
const moments: readonly (readonly [Law, number, number])[] = [
  [cut(0, 1, -1, 1), 0, 0.291125094772793],
  [cut(0, 1, -2, 2), 0, 0.773741303549923],
  [cut(0, 1, 0, 2), 0.722789752245231, 0.251316277599201],
  [cut(10, 2, 9, 15), 10.9763901096027, 1.76332040522845],
  [cut(5.5, 0.25, 5, 6.25), 5.51269574741872, 0.0545717899984629],
  [cut(0, 1, 0, Infinity), 0.797884560802865, 0.363380227632419],
  [triangle(0, 1, 4), 5 / 3, 13 / 18],
  [triangle(5.5, 5.75, 6), 5.75, 1 / 96],
  [logNormal(1, 1), 1.64872127070013, 4.6707742704716],
  [logNormal(1, 0.25), 1.0317434074991, 0.0686539941489669],
  [{ kind: 'log-normal', median: Math.exp(2.28297473641741), cov: 0.2 }, 10, 4],
  [{ kind: 'uniform', low: -1, high: 5 }, 2, 3],
  [{ kind: 'student-t', mean: 2, scale: 3, dof: 5 }, 2, 15],
  // A t law of 3 cut at its mean is folded: mean 2√3/π, second moment 3 (derived).
  [
    { kind: 'student-t', mean: 0, scale: 1, dof: 3, low: -1e-300 },
    (2 * Math.sqrt(3)) / Math.PI,
    3 - 12 / Math.PI ** 2,
  ],
];

test('mean and variance agree with their closed forms', () => {
  expect(moments.length).toBe(14);
  for (const [law, m, v] of moments) {
    expect(Math.abs(mean(law) - m), JSON.stringify(law)).toBeLessThan(1e-12 * Math.max(1, Math.abs(m)));
    expect(Math.abs(variance(law) / v - 1), JSON.stringify(law)).toBeLessThan(1e-12);
  }
});

// Derived, as above.
const points: readonly (readonly [Law, number, number])[] = [
  [triangle(0, 1, 4), 0.25, 1],
  [triangle(0, 1, 4), 2 / 3, 2],
  [triangle(0, 1, 4), 0.1, 0.632455532033676],
  [triangle(0, 1, 4), 0.5, 1.55051025721682],
  [triangle(0, 1, 4), 0.9, 2.90455488498967],
  [logNormal(1, 1), 0.5, 1],
  [logNormal(1, 1), 0.95, 5.18025160223302],
  [logNormal(1, 0.25), 0.95, 1.50864727770089],
];

test('quantiles agree with their closed forms', () => {
  expect(points.length).toBe(8);
  for (const [law, u, x] of points) {
    expect(Math.abs(quantile(law, u) / x - 1), JSON.stringify(law)).toBeLessThan(1e-13);
    expect(cumulative(law, x)).toBeCloseTo(u, 13);
  }
});

const everyKind: readonly Law[] = [
  { kind: 'normal', mean: -2, sd: 3 },
  cut(1, 2, 0, 4),
  cut(0, 1, 6, 9), // far above the mean
  cut(0, 1, -Infinity, -4),
  cut(0, 1, 1, 1.001), // narrow
  { kind: 'log-normal', median: 0.05, cov: 0.4 },
  triangle(0, 1, 4),
  triangle(0, 0, 4),
  { kind: 'uniform', low: -1, high: 5 },
  { kind: 'student-t', mean: 2, scale: 3, dof: 4 },
  { kind: 'student-t', mean: 2, scale: 3, dof: 4, low: -1 },
  { kind: 'empirical', values: [-1, 0, 0.5, 2, 2, 3], bandwidth: 0.7 },
  { kind: 'empirical', values: [0.1, 0.3, 1, 1.2], bandwidth: 0.4, low: 0 },
];

test('the distribution function undoes the quantile, for every kind and in both tails', () => {
  for (const law of everyKind) {
    for (const u of [1e-12, 1e-6, 0.003, 0.2, 0.5, 0.8, 0.997, 1 - 1e-6]) {
      const back = cumulative(law, quantile(law, u));
      // A bounded law pins x to a few ulp of its end, so only absolute digits come back there.
      const tolerance = 1e-9 * Math.min(u, 1 - u) + 4e-13;
      expect(Math.abs(back - u), `${JSON.stringify(law)} at ${u}`).toBeLessThan(tolerance);
    }
  }
});

test('mean and variance are those of the values that the quantile gives, and density is the slope', () => {
  const n = 400_000;
  for (const law of everyKind) {
    const values = Float64Array.from({ length: n }, (_, i) => normalQuantile((i + 0.5) / n));
    fillFromNormals(law, values, values, n);
    const middle = values.reduce((sum, x) => sum + x, 0) / n;
    const spread = values.reduce((sum, x) => sum + (x - middle) ** 2, 0) / n;
    const sd = Math.sqrt(variance(law));
    // Midpoint rule of an unbounded quantile: the missing half cells of the two ends weigh about 1e-5 of the sd;
    // Student's t of 4 has a variance integral that converges like 1/√n.
    expect(Math.abs(middle - mean(law)) / sd, JSON.stringify(law)).toBeLessThan(1e-4);
    expect(Math.abs(spread / (sd * sd) - 1), JSON.stringify(law)).toBeLessThan(
      law.kind === 'student-t' ? 5e-3 : 1e-4,
    );
    const x = quantile(law, 0.37);
    const step = 1e-4 * sd;
    const slope = (cumulative(law, x + step) - cumulative(law, x - step)) / (2 * step);
    expect(density(law, x) / slope).toBeCloseTo(1, 6);
  }
});

test('standard normal numbers give the quantile of their probability, far into both tails, in place too', () => {
  for (const law of [...everyKind, { kind: 'constant', value: 7 } as const]) {
    const normals = Float64Array.of(-7.7, -3, -0.4, 0, 1e-3, 2.2, 0.123);
    const values = normals.slice();
    fillFromNormals(law, values, values, 6);
    expect(values[6]).toBe(0.123);
    normals.subarray(0, 6).forEach((z, i) => {
      const expected = quantile(law, normalCumulative(z));
      const off = Math.max(Math.abs(expected - centralValue(law)), Math.sqrt(variance(law)));
      expect(Math.abs(values[i]! - expected), JSON.stringify(law)).toBeLessThanOrEqual(
        1e-10 * off + 1e-15 * Math.abs(expected),
      );
    });
  }
  // Φ(9) is 1 in doubles; the value must be neither Infinity nor the end of a table.
  const far = Float64Array.of(9);
  fillFromNormals(cut(0, 1, -1, Infinity), far, far, 1);
  expect(normalTail(far[0]!) / normalTail(-1) / normalTail(9)).toBeCloseTo(1, 10);
  fillFromNormals({ kind: 'student-t', mean: 0, scale: 1, dof: 4 }, Float64Array.of(9), far, 1);
  expect(studentCumulative(-far[0]!, 4) / normalTail(9)).toBeCloseTo(1, 9);
});

test('a quantile never falls as its probability rises and never leaves the support', () => {
  const probability = fc.double({ min: 0, max: 1, noNaN: true });
  fc.assert(
    fc.property(fc.constantFrom(...everyKind), probability, probability, (law, u, v) => {
      const { low, high } = support(law);
      const x = quantile(law, Math.min(u, v));
      const y = quantile(law, Math.max(u, v));
      expect(x).toBeLessThanOrEqual(y);
      expect(x).toBeGreaterThanOrEqual(low);
      expect(y).toBeLessThanOrEqual(high);
    }),
  );
});

test('a scaled law gives the scaled quantiles', () => {
  for (const law of everyKind) {
    const offset = law.kind === 'log-normal' ? 0 : -3.2;
    const scaled = scaleLaw(law, 0.0254, offset);
    for (const u of [0.001, 0.4, 0.93]) {
      expect(quantile(scaled, u)).toBeCloseTo(0.0254 * quantile(law, u) + offset, 12);
    }
    expect(variance(scaled) / variance(law)).toBeCloseTo(0.0254 ** 2, 10);
  }
  expect(() => scaleLaw({ kind: 'log-normal', median: 1, cov: 0.1 }, 1, 0.5)).toThrow(/log-normal/);
  expect(() => scaleLaw({ kind: 'constant', value: 1 }, 0, 0)).toThrow(/factor: read 0/);
});

test('a law without spread is a constant, not a division by nothing', () => {
  const still: readonly Law[] = [
    { kind: 'normal', mean: 4, sd: 0 },
    cut(4, 0, 3, 5),
    cut(9, 1, 4, 4),
    { kind: 'log-normal', median: 4, cov: 0 },
    triangle(4, 4, 4),
    { kind: 'uniform', low: 4, high: 4 },
    { kind: 'student-t', mean: 4, scale: 0, dof: 3 },
    { kind: 'constant', value: 4 },
  ];
  for (const law of still) {
    expect(isSpread(law)).toBe(false);
    expect([mean(law), centralValue(law), quantile(law, 0.01), quantile(law, 1)]).toEqual([4, 4, 4, 4]);
    expect([variance(law), cumulative(law, 3.999), cumulative(law, 4)]).toEqual([0, 0, 1]);
    expect(isBounded(law)).toBe(true);
  }
});

test('unsound parameters are named with what was read and what is needed', () => {
  const wrong: readonly (readonly [Law, string])[] = [
    [{ kind: 'normal', mean: 0, sd: -1 }, 'sd: read -1; a finite number of at least 0 is needed.'],
    [{ kind: 'normal', mean: NaN, sd: 1 }, 'mean: read NaN; a finite number is needed.'],
    [{ kind: 'log-normal', median: 0, cov: 0.1 }, 'median: read 0; a finite number above 0 is needed.'],
    [triangle(0, 5, 4), 'mode: read 5; from low, 0, to high, 4, is needed.'],
    [{ kind: 'uniform', low: 2, high: 1 }, 'high: read 1; at least low, 2, is needed.'],
    [
      cut(0, 1, 50, 60),
      'low, high: 50 to 60 lies too far from mean 0 at sd 1; nothing of the law is left there.',
    ],
    [
      { kind: 'student-t', mean: 0, scale: 1, dof: 1 },
      'dof: read 1; a finite number of at least 1.5 is needed (2 is that of three measurements).',
    ],
  ];
  for (const [law, words] of wrong) {
    expect(lawProblem(law)).toBe(words);
    for (const ask of [mean, variance, centralValue, support]) expect(() => ask(law)).toThrow(RangeError);
  }
  expect(lawProblem(cut(0, 1, -Infinity, Infinity))).toBeUndefined();
});
