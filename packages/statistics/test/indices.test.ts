import { expect, test } from 'vitest';
import {
  BLOCK,
  fillUniforms,
  type Model,
  normalCumulative,
  normalQuantile,
  sobolIndices,
  tailInfluence,
} from '../src/index.ts';
import { gFunction, ishigami, type SensitivityFunction } from './sensitivity-functions.ts';

// Exact values derived with 25-digit arithmetic. Those of Ishigami and of the last g-function are also printed, to
// four to six digits, in the tests of SALib (tests/test_test_functions.py). 12 digits, tolerance 1e-11.
const known: readonly {
  readonly name: string;
  readonly f: SensitivityFunction;
  readonly variance: number;
  readonly first: readonly number[];
  readonly total: readonly number[];
}[] = [
  {
    name: 'Ishigami',
    f: ishigami(),
    variance: 13.8445879407193,
    first: [0.313905191147811, 0.442411144790041, 0],
    total: [0.557588855209959, 0.442411144790041, 0.243683664062148],
  },
  {
    name: 'g of 0, 1, 4.5, 9, 99, 99, 99, 99',
    f: gFunction([0, 1, 4.5, 9, 99, 99, 99, 99]),
    variance: 0.465424431902207,
    first: [
      0.716192168879, 0.17904804222, 0.0236757741778, 0.00716192168879, 7.16192168879e-5, 7.16192168879e-5,
      7.16192168879e-5, 7.16192168879e-5,
    ],
    total: [
      0.787144126659, 0.242198192818, 0.0343169101541, 0.0104603870652, 1.0494905192e-4, 1.0494905192e-4,
      1.0494905192e-4, 1.0494905192e-4,
    ],
  },
  {
    name: 'g of 0, 1, 9, 99',
    f: gFunction([0, 1, 9, 99]),
    variance: 0.449307567901235,
    first: [0.74188230323, 0.185470575808, 0.0074188230323, 7.4188230323e-5],
    total: [0.806411727423, 0.248126685361, 0.0107164349159, 1.07517979724e-4],
  },
  {
    name: 'g of 78, 12, 0.5, 2, 97, 33',
    f: gFunction([78, 12, 0.5, 2, 97, 33]),
    variance: 0.193469786795925,
    first: [
      0.000276065038213, 0.0101948041626, 0.765743068216, 0.191435767054, 0.000179396283162, 0.00149041687153,
    ],
    total: [
      0.000329457685882, 0.0121432395875, 0.795969769091, 0.220313061088, 0.000214096613003, 0.00177825474501,
    ],
  },
];

const close = (found: readonly number[], expected: readonly number[], tolerance: number): boolean =>
  found.length === expected.length && found.every((x, i) => Math.abs(x - expected[i]!) <= tolerance);

test('the closed forms of the test functions agree with the derived table', () => {
  expect(known.length).toBe(4);
  for (const { name, f, variance, first, total } of known) {
    expect(Math.abs(f.variance / variance - 1), name).toBeLessThan(1e-11);
    expect(close(f.first, first, 1e-11), name).toBe(true);
    expect(close(f.total, total, 1e-11), name).toBe(true);
  }
  const out = new Float64Array(1);
  known[1]!.f.model(new Float64Array(8), 1, out);
  // SALib's test prints 4.0583; derived 4.058355639.
  expect(out[0]).toBeCloseTo(4.058355639, 9);
});

test('estimated indices are right to three digits and their intervals say so', () => {
  let misses = 0;
  let intervals = 0;
  for (const { name, f, variance, first, total } of known) {
    const found = sobolIndices(f.model, f.dimension, { seed: 3, points: 32_768, repeats: 8 })!;
    expect(Math.abs(found.variance / variance - 1), name).toBeLessThan(1e-3);
    found.groups.forEach((group, i) => {
      for (const [index, exact] of [
        [group.first, first[i]!],
        [group.total, total[i]!],
      ] as const) {
        expect(Math.abs(index.value - exact), `${name}, input ${i}`).toBeLessThan(5e-4);
        intervals += 1;
        if (exact < index.low || exact > index.high) misses += 1;
      }
    });
    expect(found.calls).toBe(8 * 32_768 * (f.dimension + 2));
  }
  // 42 intervals of 95 %: more than 7 outside has a chance of 1 in 400 if they are right.
  expect(intervals).toBe(42);
  expect(misses).toBeLessThanOrEqual(7);
});

/** A function of independent normal inputs with means and sds. */
const ofNormals =
  (means: readonly number[], sds: readonly number[], f: (x: readonly number[]) => number): Model =>
  (u, n, out) => {
    const d = means.length;
    for (let i = 0; i < n; i++) out[i] = f(means.map((m, k) => m + sds[k]! * normalQuantile(u[i * d + k]!)));
  };

test('a sum and a product of normals have the indices that algebra gives', () => {
  // Exact: variances 4·1, 9·4, 1·9 of 49; and (2·½)², (1·1)², (½·1)² of 2.25.
  const sum = sobolIndices(
    ofNormals([0, 0, 0], [1, 2, 3], ([x, y, z]) => 2 * x! + 3 * y! - z!),
    3,
    { seed: 0 },
  )!;
  sum.groups.forEach((group, i) => {
    const exact = [4 / 49, 36 / 49, 9 / 49][i]!;
    expect(Math.abs(group.first.value - exact)).toBeLessThan(3e-3);
    expect(Math.abs(group.total.value - exact)).toBeLessThan(3e-3);
  });
  expect(sum.variance / 49).toBeCloseTo(1, 2);
  const product = sobolIndices(
    ofNormals([1, 2], [0.5, 1], ([x, y]) => x! * y!),
    2,
    { seed: 0, points: 4096 },
  )!;
  for (const group of product.groups) {
    expect(Math.abs(group.first.value - 4 / 9)).toBeLessThan(3e-3);
    expect(Math.abs(group.total.value - 5 / 9)).toBeLessThan(3e-3);
  }
});

test('the intervals hold the exact index in 95 % of seeds', () => {
  const { model, first, total } = gFunction([0, 1, 9]);
  let held = 0;
  const seeds = 250;
  for (let seed = 0; seed < seeds; seed++) {
    const found = sobolIndices(model, 3, { seed, points: 64, repeats: 8 })!;
    const { first: s, total: t } = found.groups[1]!;
    if (s.low <= first[1]! && first[1]! <= s.high) held += 1;
    if (t.low <= total[1]! && total[1]! <= t.high) held += 1;
  }
  // 500 intervals; the binomial sd of the share is 1 %.
  expect(held / (2 * seeds)).toBeGreaterThan(0.925);
  expect(held / (2 * seeds)).toBeLessThan(0.985);
});

test('a group gathers what its inputs do together', () => {
  const { model } = ishigami();
  const found = sobolIndices(model, 3, { seed: 1, points: 4096, groups: [[0, 2], [1]] })!;
  // Exact: S1 + S3 + S13 for the pair, and nothing is shared with the other group.
  expect(found.groups[0]!.first.value).toBeCloseTo(0.557588855209959, 2);
  expect(found.groups[0]!.total.value).toBeCloseTo(0.557588855209959, 2);
  expect(found.groups[1]!.first.value).toBeCloseTo(0.442411144790041, 2);
});

test('the order of inputs changes names, not shares, and an idle input has none', () => {
  const flat: Model = (_u, n, out) => {
    out.fill(7, 0, n);
  };
  expect(sobolIndices(flat, 2, { seed: 1 })).toBeUndefined();
  const idle = sobolIndices(
    (u, n, out) => {
      for (let i = 0; i < n; i++) out[i] = u[2 * i]!;
    },
    2,
    { seed: 1 },
  )!;
  expect(idle.groups[1]).toEqual({
    first: { value: 0, low: 0, high: 0 },
    total: { value: 0, low: 0, high: 0 },
  });
});

test('options that cannot be are refused', () => {
  const { model } = ishigami();
  expect(() => sobolIndices(model, 3, { seed: 1, points: 1000 })).toThrow(/points: read 1000/);
  expect(() => sobolIndices(model, 3, { seed: 1, repeats: 2 })).toThrow(/repeats: read 2/);
  expect(() => sobolIndices(model, 3, { seed: 1, groups: [[3]] })).toThrow(/groups\[0\]: read column 3/);
  expect(() => sobolIndices(model, 129, { seed: 1 })).toThrow(/1 to 128/);
});

test('failing draws show which input made them fail', () => {
  // Failure is x + y > 3, z idle, all standard normal. Derived: given failure x is skew normal about 3/2; its
  // distance from N(0, 1) is found by quadrature below.
  const n = 400 * BLOCK;
  const columns = ['x', 'y', 'z'].map((name) => {
    const column = new Float64Array(n);
    for (let b = 0; b * BLOCK < n; b++) fillUniforms(5, name, b, column.subarray(b * BLOCK), BLOCK);
    return column;
  });
  const failing = Array.from({ length: n }, (_, i) => i).filter(
    (i) => normalQuantile(columns[0]![i]!) + normalQuantile(columns[1]![i]!) > 3,
  );
  const [x, , z] = columns.map((column) => tailInfluence(Float64Array.from(failing, (i) => column[i]!)));

  // sup |F(x) − F(x | fail)| with F(x | fail) = ∫ φ(t) Q(3 − t) dt / Q(3/√2), midpoint rule.
  const failure = normalCumulative(-3 / Math.SQRT2);
  let given = 0;
  let distance = 0;
  for (let u = 0.5e-5; u < 1; u += 1e-5) {
    given += (1e-5 * normalCumulative(normalQuantile(u) - 3)) / failure;
    distance = Math.max(distance, Math.abs(u - given));
  }
  const error = 1 / Math.sqrt(failing.length);
  expect(Math.abs(x!.distance - distance)).toBeLessThan(1.5 * error);
  expect(x!.chance).toBeLessThan(1e-10);
  expect(x!.meanProbability).toBeGreaterThan(0.8);
  expect(z!.chance).toBeGreaterThan(0.01);
  expect(z!.distance).toBeLessThan(1.7 * error);
});

test('a weight of two counts as the draw twice', () => {
  const weighted = tailInfluence(Float64Array.of(0.9, 0.2, 0.7), Float64Array.of(2, 1, 1));
  const repeated = tailInfluence(Float64Array.of(0.9, 0.2, 0.7, 0.9));
  expect(weighted.distance).toBeCloseTo(repeated.distance, 14);
  expect(weighted.meanProbability).toBeCloseTo(repeated.meanProbability, 14);
  expect(() => tailInfluence(Float64Array.of())).toThrow(RangeError);
  expect(() => tailInfluence(Float64Array.of(0.5), Float64Array.of(-1))).toThrow(/weight -1/);
});
