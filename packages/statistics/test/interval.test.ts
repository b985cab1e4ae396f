import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  clopperPearson,
  drawsToSupport,
  studentCumulative,
  studentQuantile,
  upperBoundZeroHits,
  wilson,
} from '../src/index.ts';

// hits, n, exact interval, Wilson interval, two-sided 95 %. Derived with 25-digit arithmetic from the definitions
// (beta quantiles; z = 1.95996398454005); the Wilson figures of 0/20, 15/148 and 81/263 are also printed, to four
// digits, in R. G. Newcombe (1998), Stat. Med. 17:857, table I. 12 digits printed, tolerance 1e-10 relative.
const intervals = [
  [0, 10, 0, 0.308497107819, 0, 0.277532799863],
  [0, 20, 0, 0.168433470983, 0, 0.161125158053],
  [0, 100, 0, 0.0362166926452, 0, 0.036993498207],
  [0, 1000, 0, 0.00368208389687, 0, 0.00382675848556],
  [0, 10000, 0, 0.000368819914619, 0, 0.000383998370677],
  [1, 10, 0.00252857854446, 0.445016117028, 0.0178762130951, 0.404150026795],
  [1, 100, 0.000253146032977, 0.0544593853921, 0.00176743206414, 0.0544861961787],
  [2, 20, 0.0123485271703, 0.316982714019, 0.0278664812138, 0.301033645228],
  [5, 10, 0.187086028447, 0.812913971553, 0.236593090513, 0.763406909487],
  [7, 50, 0.0581917003404, 0.267396002497, 0.0695083342702, 0.261861937106],
  [10, 100, 0.0490046892215, 0.17622259774, 0.0552291370607, 0.174365661505],
  [15, 148, 0.0578440100834, 0.161650490349, 0.0623863995307, 0.160487241723],
  [81, 263, 0.252736745585, 0.367621922601, 0.255288519878, 0.366209576983],
  [3, 1000, 0.00061909993165, 0.00874202323848, 0.00102078388114, 0.0087830140535],
  [37, 10000, 0.00260643900771, 0.00509639125316, 0.00268564803775, 0.00509550874498],
  [10, 10, 0.691502892181, 1, 0.722467200137, 1],
  [10000, 10000, 0.999631180085, 1, 0.999616001629, 1],
] as const;

const near = (found: number, expected: number): boolean =>
  Math.abs(found - expected) <= 1e-10 * expected && (expected !== 0 || found === 0);

test('both intervals of a proportion agree with the derived table', () => {
  expect(intervals.length).toBe(17);
  for (const [hits, n, exactLow, exactHigh, scoreLow, scoreHigh] of intervals) {
    const exact = clopperPearson(hits, n);
    const score = wilson(hits, n);
    const found = [exact.low, exact.high, score.low, score.high];
    const expected = [exactLow, exactHigh, scoreLow, scoreHigh];
    expect(
      found.every((value, i) => near(value, expected[i]!)),
      `${hits}/${n}: ${found}`,
    ).toBe(true);
  }
});

// Derived: 1 − 0.05^(1/n).
const zeroHits = [
  [10, 0.258865550893052],
  [30, 0.0950338528553041],
  [100, 0.0295130496070399],
  [1000, 0.0029912495450953],
  [10000, 0.000299528359776612],
] as const;

test('the bound of no hit agrees with its closed form and stays below the rule of three', () => {
  expect(zeroHits.length).toBe(5);
  for (const [n, bound] of zeroHits) {
    expect(Math.abs(upperBoundZeroHits(n) / bound - 1)).toBeLessThan(1e-13);
    expect(upperBoundZeroHits(n)).toBeLessThan(3 / n);
  }
  // Nonparametric tolerance: 59 clean trials show 95 % at 95 %, 58 do not; 299 show 99 %, 298 do not (derived:
  // 0.95^59 = 0.0484945, 0.95^58 = 0.0510469; 0.99^299 = 0.0495363, 0.99^298 = 0.0500366).
  expect([58, 59].map((n) => upperBoundZeroHits(n) <= 0.05)).toEqual([false, true]);
  expect([298, 299].map((n) => upperBoundZeroHits(n) <= 0.01)).toEqual([false, true]);
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
      for (const interval of [clopperPearson, wilson]) {
        const here = interval(hits, n);
        const there = interval(n - hits, n);
        expect(here.low).toBeCloseTo(1 - there.high, 12);
        expect(here.high).toBeCloseTo(1 - there.low, 12);
        expect(here.low).toBeLessThanOrEqual(hits / n);
        expect(here.high).toBeGreaterThanOrEqual(hits / n);
      }
    }),
  );
});

/** Probability that an interval of hits in n holds p: the sum over all outcomes, by the binomial recurrence. */
function coverage(interval: typeof wilson, n: number, p: number): number {
  let probability = (1 - p) ** n;
  let held = 0;
  for (let hits = 0; hits <= n; hits++) {
    const { low, high } = interval(hits, n);
    if (low <= p && p <= high) held += probability;
    probability *= ((n - hits) / (hits + 1)) * (p / (1 - p));
  }
  return held;
}

test('by exact enumeration Clopper and Pearson hold the truth in 95 % or more, Wilson only on average', () => {
  let leastWilson = 1;
  for (const n of [5, 10, 30, 59]) {
    let sum = 0;
    for (let k = 1; k < 200; k++) {
      expect(coverage(clopperPearson, n, k / 200), `n = ${n}, p = ${k / 200}`).toBeGreaterThan(0.95 - 1e-12);
      const score = coverage(wilson, n, k / 200);
      sum += score / 199;
      leastWilson = Math.min(leastWilson, score);
    }
    expect(sum).toBeGreaterThan(0.945);
  }
  expect(leastWilson).toBeLessThan(0.9);
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
    expect(() => wilson(hits, n)).toThrow(RangeError);
  }
  expect(() => drawsToSupport(0)).toThrow(/risk: read 0/);
  expect(() => clopperPearson(0, 10, 1)).toThrow(/level: read 1/);
});
