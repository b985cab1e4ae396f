import { InvalidArgumentError } from '@commander-js/extra-typings';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { centreOption, topHeightOption, wholeNumber } from '../src/command-line/index.ts';

const INCH = 0.0254;

test('a top height is read as on a tape or in any unit of length', () => {
  const rows = [
    ['39 1/4 in', 39.25],
    ['39-1/4 in', 39.25],
    [' 39.25 in ', 39.25],
    ['980 mm', 980 / 25.4],
    ['20 in', 20],
  ] as const;
  for (const [text, inches] of rows) expect(topHeightOption(text) / INCH, text).toBeCloseTo(inches, 12);
});

test('a bare number is refused with the units that make it a height of a tub', () => {
  const rows = [
    [topHeightOption, '980', 'name the unit: 980 mm'],
    [topHeightOption, '39 1/4', 'name the unit: 39 1/4 in'],
    [topHeightOption, '7000', 'the unit is missing: write 7000 in'],
    [centreOption, '-1', 'name the unit: -1 in, -1 ft, -1 mm or -1 cm'],
  ] as const;
  for (const [read, text, why] of rows) expect(() => read(text), text).toThrow(`read "${text}"; ${why}`);
});

test('what is no top height of a tub is refused with the range and never gives a number', () => {
  const wrong = ['39 1/0 in', '1e24', '0', '39.5 1/4', '39 5/4 in', '99999999', '-3 in', '', '39 lb', '٣٩'];
  for (const text of wrong) {
    expect(() => topHeightOption(text), text).toThrow(InvalidArgumentError);
    expect(() => topHeightOption(text), text).toThrow(/^read ".*"; .*write it as "39 1\/4 in"/);
  }
  fc.assert(
    fc.property(fc.string(), (text) => {
      let height: number;
      try {
        height = topHeightOption(text);
      } catch {
        return;
      }
      expect(height).toBeGreaterThanOrEqual(20 * INCH);
      expect(height).toBeLessThanOrEqual(80.000001 * INCH);
    }),
  );
});

test('a whole number is digits, parted by thousands or not', () => {
  const read = wholeNumber(1000, 2_000_000);
  expect(read('1,000,000')).toBe(1_000_000);
  expect(read('4096')).toBe(4096);
  for (const text of ['0x1000', '1e4', '10,00', '4096.0', '-5000', '', ' ', '999', '2,000,001']) {
    expect(() => read(text), text).toThrow('1,000 to 2,000,000');
  }
});
