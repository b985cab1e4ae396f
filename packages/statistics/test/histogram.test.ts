import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  countValues,
  emptyHistogram,
  histogramQuantile,
  histogramTotal,
  mergeHistogram,
} from '../src/index.ts';

const values = fc.array(fc.double({ min: -2, max: 3, noNaN: true }), { minLength: 1, maxLength: 200 });

test('a quantile lies in its cell or between an extreme and the end of the range', () => {
  fc.assert(
    fc.property(values, fc.double({ min: 0, max: 1, noNaN: true }), (list, q) => {
      const histogram = emptyHistogram(-1, 1, 64);
      countValues(histogram, Float64Array.from(list), list.length);
      const sorted = list.toSorted((a, b) => a - b);
      const exact = sorted[Math.max(1, Math.ceil(q * list.length)) - 1]!;
      const { low, high } = histogramQuantile(histogram, q);
      expect(exact).toBeGreaterThanOrEqual(low - 1e-15);
      expect(exact).toBeLessThanOrEqual(high + 1e-15);
      if (exact >= -1 && exact < 1) expect(high - low).toBeLessThanOrEqual(2 / 64 + 1e-15);
    }),
  );
});

test('the order in which parts are merged changes nothing', () => {
  fc.assert(
    fc.property(values, values, values, (a, b, c) => {
      const part = (list: number[]) => {
        const histogram = emptyHistogram(-1, 1, 16);
        countValues(histogram, Float64Array.from(list), list.length);
        return histogram;
      };
      const whole = part([...a, ...b, ...c]);
      const merged = part(c);
      mergeHistogram(merged, part(a));
      mergeHistogram(merged, part(b));
      expect(merged).toEqual(whole);
      expect(histogramTotal(merged)).toBe(a.length + b.length + c.length);
    }),
  );
});

test('what cannot be counted is refused', () => {
  const histogram = emptyHistogram(0, 1, 10);
  expect(() => countValues(histogram, Float64Array.of(0.5, NaN), 2)).toThrow(/values\[1\]: read NaN/);
  expect(() => mergeHistogram(histogram, emptyHistogram(0, 2, 10))).toThrow(/10 cells from 0 to 2/);
  expect(() => histogramQuantile(emptyHistogram(0, 1, 10), 0.5)).toThrow(/empty/);
  expect(() => emptyHistogram(1, 1, 10)).toThrow(RangeError);
});
