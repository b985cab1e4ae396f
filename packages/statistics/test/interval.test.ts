import fc from 'fast-check';
import { expect, test } from 'vitest';
import { clopperPearson, drawsToSupport, studentCumulative, studentQuantile } from '../src/index.ts';

// hits, n, exact interval, two-sided 95 %. Derived with 25-digit arithmetic from the definition (beta quantiles).
// 12 digits printed, tolerance 1e-10 relative.
const intervals = [
  [0, 10, 0, 0.308497107819],
  [0, 20, 0, 0.168433470983],
  [0, 100, 0, 0.0362166926452],
  [0, 1000, 0, 0.00368208389687],
  [0, 10000, 0, 0.000368819914619],
  [1, 10, 0.00252857854446, 0.445016117028],
  [1, 100, 0.000253146032977, 0.0544593853921],
  [2, 20, 0.0123485271703, 0.316982714019],
  [5, 10, 0.187086028447, 0.812913971553],
  [7, 50, 0.0581917003404, 0.267396002497],
  [10, 100, 0.0490046892215, 0.17622259774],
  [15, 148, 0.0578440100834, 0.161650490349],
  [81, 263, 0.252736745585, 0.367621922601],
  [3, 1000, 0.00061909993165, 0.00874202323848],
  [37, 10000, 0.00260643900771, 0.00509639125316],
  [10, 10, 0.691502892181, 1],
  [10000, 10000, 0.999631180085, 1],
] as const;

const near = (found: number, expected: number): boolean =>
  Math.abs(found - expected) <= 1e-10 * expected && (expected !== 0 || found === 0);

test('the exact interval of a proportion agrees with the derived table', () => {
  expect(intervals.length).toBe(17);
  for (const [hits, n, exactLow, exactHigh] of intervals) {
    const exact = clopperPearson(hits, n);
    const found = [exact.low, exact.high];
    const expected = [exactLow, exactHigh];
    expect(
      found.every((value, i) => near(value, expected[i]!)),
      `${hits}/${n}: ${found}`,
    ).toBe(true);
  }
});

// Half the 95 % point of chi-squared with 2k + 2 degrees of freedom: the one-sided 95 % bound of a Poisson mean
// after k events (derived). A proportion in very many trials tends to it like (bound)²/2n: 1e-7 here.
const poisson = [2.99573227355, 4.74386451839, 6.29579362187, 7.75365652793, 9.15351902664];

test('in many trials the exact bound tends to the Poisson bound', () => {
  const n = 1e9;
  expect(poisson.length).toBe(5);
  poisson.forEach((bound, k) => {
    expect(Math.abs((clopperPearson(k, n, 0.9).high * n) / bound - 1)).toBeLessThan(1e-7);
  });
});

test('the fewest draws that support a risk do, and one draw fewer does not', () => {
  const risk = fc.double({ min: 1e-7, max: 0.9, noNaN: true });
  fc.assert(
    fc.property(risk, fc.constantFrom(0.8, 0.95, 0.99), (p, level) => {
      const n = drawsToSupport(p, level);
      expect(clopperPearson(0, n, level).high).toBeLessThanOrEqual(p);
      if (n > 1) expect(clopperPearson(0, n - 1, level).high).toBeGreaterThan(p);
    }),
  );
});

test('misses mirror hits', () => {
  const counts = fc
    .integer({ min: 1, max: 100_000 })
    .chain((n) => fc.tuple(fc.integer({ min: 0, max: n }), fc.constant(n)));
  fc.assert(
    fc.property(counts, ([hits, n]) => {
      const here = clopperPearson(hits, n);
      const there = clopperPearson(n - hits, n);
      expect(here.low).toBeCloseTo(1 - there.high, 12);
      expect(here.high).toBeCloseTo(1 - there.low, 12);
      expect(here.low).toBeLessThanOrEqual(hits / n);
      expect(here.high).toBeGreaterThanOrEqual(hits / n);
    }),
  );
});

/** Probability that the interval of hits in n holds p: the sum over all outcomes, by the binomial recurrence. */
function coverage(n: number, p: number): number {
  let probability = (1 - p) ** n;
  let held = 0;
  for (let hits = 0; hits <= n; hits++) {
    const { low, high } = clopperPearson(hits, n);
    if (low <= p && p <= high) held += probability;
    probability *= ((n - hits) / (hits + 1)) * (p / (1 - p));
  }
  return held;
}

test('by exact enumeration the interval holds the truth in 95 % or more', () => {
  for (const n of [5, 10, 30, 59]) {
    for (let k = 1; k < 200; k++) {
      expect(coverage(n, k / 200), `n = ${n}, p = ${k / 200}`).toBeGreaterThan(0.95 - 1e-12);
    }
  }
});

// Derived (12 decimals).
const student = [
  [0.975, 9, 2.262157162798],
  [0.95, 9, 1.833112932656],
  [0.975, 29, 2.045229642133],
] as const;

test('Student’s t agrees with the derived figures and with its closed forms', () => {
  expect(student.length).toBe(3);
  for (const [p, dof, t] of student) expect(studentQuantile(p, dof)).toBeCloseTo(t, 12);
  for (const p of [1e-9, 0.001, 0.2, 0.4999, 0.73, 0.9995]) {
    // Derived: dof 1 is the Cauchy law; dof 2 has t = (2p − 1)/√(2p(1 − p)).
    const cauchy = p < 0.25 ? -1 / Math.tan(Math.PI * p) : Math.tan(Math.PI * (p - 0.5));
    expect(studentQuantile(p, 1) / cauchy).toBeCloseTo(1, 12);
    expect(studentQuantile(p, 2) / ((2 * p - 1) / Math.sqrt(2 * p * (1 - p)))).toBeCloseTo(1, 12);
    for (const dof of [1.3, 4, 9, 200, 1e6]) {
      expect(studentCumulative(studentQuantile(p, dof), dof) / p).toBeCloseTo(1, 10);
    }
  }
});

test('counts that cannot be are refused', () => {
  const wrong = [
    [-1, 10],
    [11, 10],
    [1.5, 10],
    [0, 0],
  ] as const;
  for (const [hits, n] of wrong) {
    expect(() => clopperPearson(hits, n)).toThrow(RangeError);
  }
  expect(() => drawsToSupport(0)).toThrow(/risk: read 0/);
  expect(() => clopperPearson(0, 10, 1)).toThrow(/level: read 1/);
});
