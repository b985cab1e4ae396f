import fc from 'fast-check';
import { expect, test } from 'vitest';
import { SOBOL_DIMENSIONS, scrambledSobolPoints, sobolPoints } from '../src/index.ts';

// Points 0 to 8 of dimensions 1 to 8, direction numbers new-joe-kuo-6.21201 (Joe & Kuo 2008), Gray-code order;
// equal to scipy.stats.qmc.Sobol(8, scramble=False). Exact in binary.
const first = [
  [0, 0, 0, 0, 0, 0, 0, 0],
  [0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5],
  [0.75, 0.25, 0.25, 0.25, 0.75, 0.75, 0.25, 0.75],
  [0.25, 0.75, 0.75, 0.75, 0.25, 0.25, 0.75, 0.25],
  [0.375, 0.375, 0.625, 0.875, 0.375, 0.125, 0.375, 0.875],
  [0.875, 0.875, 0.125, 0.375, 0.875, 0.625, 0.875, 0.375],
  [0.625, 0.125, 0.875, 0.625, 0.625, 0.875, 0.125, 0.125],
  [0.125, 0.625, 0.375, 0.125, 0.125, 0.375, 0.625, 0.625],
  [0.1875, 0.3125, 0.9375, 0.4375, 0.5625, 0.3125, 0.4375, 0.9375],
] as const;

// The same generator, scipy.stats.qmc.Sobol(256, scramble=False, bits=32), run for this test (SciPy 1.17.1): point
// 12345 in the dimensions named, times 2^32.
const later = [
  [9, 3443785728],
  [40, 4072407040],
  [100, 2314469376],
  [160, 440139776],
  [256, 2525757440],
] as const;

test('bare points are those of the published direction numbers', () => {
  expect(first.length).toBe(9);
  for (let d = 1; d <= 8; d++) {
    const found = new Float64Array(9);
    sobolPoints(d)(0, found, 9);
    expect(Array.from(found)).toEqual(first.map((point) => point[d - 1]));
  }
  expect(later.length).toBe(5);
  for (const [d, numerator] of later) {
    const found = new Float64Array(1);
    sobolPoints(d)(12345, found, 1);
    expect(found[0]! * 2 ** 32, `dimension ${d}`).toBe(numerator);
  }
});

/** How many different cells of a 2^a × 2^b grid the points visit. */
function cellsVisited(x: Float64Array, y: Float64Array, a: number, b: number): number {
  const cells = new Set<number>();
  for (let i = 0; i < x.length; i++)
    cells.add(Math.floor(x[i]! * 2 ** a) * 2 ** b + Math.floor(y[i]! * 2 ** b));
  return cells.size;
}

test('scrambled points stay a net: 2^m of them visit each of 2^m intervals and each cell of a plane once', () => {
  for (const scramble of ['nested', 'shift'] as const) {
    for (let seed = 0; seed < 5; seed++) {
      const x = new Float64Array(256);
      const y = new Float64Array(256);
      scrambledSobolPoints(1, seed, 'x', scramble)(0, x, 256);
      scrambledSobolPoints(2, seed, 'y', scramble)(0, y, 256);
      // Dimensions 1 and 2 are a (0, 2)-sequence (Sobol' 1967): every split of 8 bits between them is full.
      for (let a = 0; a <= 8; a++) expect(cellsVisited(x, y, a, 8 - a)).toBe(256);
      const line = new Float64Array(1024);
      for (const d of [3, 37, SOBOL_DIMENSIONS]) {
        scrambledSobolPoints(d, seed, 'z', scramble)(0, line, 1024);
        expect(new Set(line.map((u) => Math.floor(u * 1024))).size).toBe(1024);
        expect(line.every((u) => u > 0 && u < 1)).toBe(true);
      }
    }
  }
});

/** Mean square error of ∫ e^x dx = e − 1 with 2^m points, over 200 seeds. */
function squareError(scramble: 'nested' | 'shift', m: number): number {
  const n = 2 ** m;
  const x = new Float64Array(n);
  let sum = 0;
  for (let seed = 0; seed < 200; seed++) {
    scrambledSobolPoints(1, seed, 'x', scramble)(0, x, n);
    const found = x.reduce((total, u) => total + Math.exp(u), 0) / n;
    sum += (found - Math.expm1(1)) ** 2 / 200;
  }
  return sum;
}

// Owen (1997): nested scrambling of a smooth function of one variable has a variance of ∫f'²/(12 n³) (a random
// point in each of n cells); a digital shift stays near n⁻². Here ∫f'² = (e² − 1)/2. A mean of 200 squares of a
// normal number is off by 10 %.
test('nested scrambling reaches the error of n to the power −3/2, a digital shift does not', () => {
  for (const m of [5, 8]) {
    const expected = (Math.exp(2) - 1) / 2 / 12 / 8 ** m;
    const ratio = squareError('nested', m) / expected;
    expect(ratio).toBeGreaterThan(0.7);
    expect(ratio).toBeLessThan(1.4);
  }
  expect(squareError('shift', 8) / squareError('nested', 8)).toBeGreaterThan(20);
});

test('the mean over scrambled points is unbiased, for a product of many inputs too', () => {
  const runs = 400;
  let sum = 0;
  let squares = 0;
  const product = new Float64Array(16);
  const u = new Float64Array(16);
  for (let seed = 0; seed < runs; seed++) {
    product.fill(1);
    for (let d = 1; d <= 12; d++) {
      scrambledSobolPoints(d, seed, `input ${d}`)(0, u, 16);
      for (let i = 0; i < 16; i++) product[i] = product[i]! * (0.5 + u[i]!);
    }
    const found = product.reduce((total, p) => total + p, 0) / 16;
    sum += found;
    squares += found * found;
  }
  const error = Math.sqrt((squares / runs - (sum / runs) ** 2) / runs);
  expect(Math.abs(sum / runs - 1) / error).toBeLessThan(3.5);
});

test('a point depends on its index only, wherever the fill begins', () => {
  const start = fc.integer({ min: 0, max: 1_000_000 });
  fc.assert(
    fc.property(start, fc.integer({ min: 1, max: SOBOL_DIMENSIONS }), (from, d) => {
      const fills = [
        sobolPoints(d),
        scrambledSobolPoints(d, 'x', 'a'),
        scrambledSobolPoints(d, 0, 'a', 'shift'),
      ];
      for (const fill of fills) {
        const run = new Float64Array(9);
        const one = new Float64Array(1);
        fill(from, run, 9);
        fill(from + 8, one, 1);
        expect(one[0]).toBe(run[8]);
      }
    }),
  );
});

test('a dimension without direction numbers is refused', () => {
  expect(() => sobolPoints(0)).toThrow(/dimension: read 0/);
  expect(() => scrambledSobolPoints(SOBOL_DIMENSIONS + 1, 1, 'a')).toThrow(/1 to 256/);
});
