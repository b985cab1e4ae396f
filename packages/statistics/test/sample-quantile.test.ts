import { expect, test } from 'vitest';
import { sampleQuantile } from '../src/index.ts';

// By hand from the definition of type 7 (Hyndman & Fan 1996): position (n − 1)q between sorted values.
test('a sample quantile interpolates between the sorted values', () => {
  const sorted = Float64Array.of(1, 2, 4, 8);
  const found = [0, 0.25, 0.5, 0.9, 1].map((q) => sampleQuantile(sorted, q));
  [1, 1.75, 3, 6.8, 8].forEach((expected, i) => {
    expect(found[i]).toBeCloseTo(expected, 12);
  });
  expect(sampleQuantile(Float64Array.of(3), 0.7)).toBe(3);
  expect(() => sampleQuantile(Float64Array.of(), 0.5)).toThrow(RangeError);
  expect(() => sampleQuantile(sorted, 1.1)).toThrow(/q: read 1.1/);
});
