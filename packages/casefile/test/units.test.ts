import { findUnit, formatQuantity, type QuantityKind, UNITS } from '@tubgap/units';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readQuantity } from '../src/quantity.ts';

const free = (kind: QuantityKind) => ({
  label: kind,
  kind,
  min: -Number.MAX_VALUE,
  max: Number.MAX_VALUE,
  unit: UNITS[kind][0]!.name,
});
const si = (text: string, kind: QuantityKind) => {
  const read = readQuantity(text, free(kind));
  if (!read.ok) throw new Error(`${text}: ${read.problem.reason}`);
  return read.value;
};

// Definitions of the international yard and pound (1959) and NIST SP 811 appendix B. The digits beyond the seven that
// SP 811 prints are derived from those definitions with exact rationals. Tolerance 1e-14: two roundings of a double.
const rows = [
  ['1 in', 'length', 0.0254],
  ['1 ft', 'length', 0.3048],
  ['1320 ft', 'length', 402.336],
  ['660 ft', 'length', 201.168],
  ['1000 ft', 'length', 304.8],
  ['1 lb', 'mass', 0.45359237],
  ['1 lbf', 'force', 4.4482216152605],
  ['1 psi', 'pressure', 6894.757293168361],
  ['14.69594877551345 psi', 'pressure', 101325],
  ['1 inHg', 'pressure', 3386.388640341],
  ['1 lbf/in', 'stiffness', 175.1268352464764],
  ['1 lb/ft3', 'density', 16.01846337396014],
  ['1 lb/ft2', 'areal density', 4.882427636383051],
  ['1 mph', 'speed', 0.44704],
  ['210 mph', 'speed', 93.8784],
  ['260 mph', 'speed', 116.2304],
  ['36 km/h', 'speed', 10],
  ['1 g', 'acceleration', 9.80665],
  ['59 degF', 'temperature', 288.15],
  ['-40 degF', 'temperature', 233.15],
  ['-40 degC', 'temperature', 233.15],
  ['9 degF', 'temperature difference', 5],
  ['180 deg', 'angle', Math.PI],
  ['1 ft2', 'area', 0.09290304],
  ['1 in/psi', 'length per pressure', 0.0254 / 6894.757293168361],
] as const;

test('units are the defined ones to the last digits', () => {
  expect(rows).toHaveLength(25);
  for (const [text, kind, expected] of rows) {
    expect(Math.abs(si(text, kind) / expected - 1), text).toBeLessThan(1e-14);
  }
});

// 1 atm = 101325 Pa in conventional inches of mercury, 12 digits; US Standard Atmosphere 1976 prints 29.921.
test('a standard atmosphere is 29.9212555797 inHg', () => {
  expect(si('29.9212555797 inHg', 'pressure')).toBeCloseTo(101325, 5);
});

test('a number with its unit reads back what was printed, in every unit', () => {
  for (const kind of Object.keys(UNITS) as QuantityKind[]) {
    for (const { name } of UNITS[kind]) {
      fc.assert(
        fc.property(
          fc.integer({ min: -99_999, max: 99_999 }),
          fc.integer({ min: -4, max: 4 }),
          (digits, power) => {
            const written = `${digits}e${power} ${name}`;
            const value = si(written, kind);
            const printed = formatQuantity(value, kind, name);
            expect(Math.abs(si(printed, kind) - value)).toBeLessThanOrEqual(
              1e-12 * Math.max(Math.abs(value), 300),
            );
          },
        ),
        { numRuns: 40 },
      );
    }
  }
});

test('other spellings of the same unit are read, other units are not', () => {
  expect(findUnit('acceleration', 'm/s²')?.name).toBe('m/s2');
  expect(findUnit('temperature', '°F')?.name).toBe('degF');
  expect(findUnit('density', 'kg/m^3')?.name).toBe('kg/m3');
  expect(findUnit('pressure', 'PSI')).toBeUndefined();
  expect(() => formatQuantity(1, 'length', 'psi')).toThrow(RangeError);
});
