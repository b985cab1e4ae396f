import { expect, test } from 'vitest';
import { caseJsonSchema } from '../src/json-schema.ts';
import { type QuantitySpec, readQuantity, readSpread } from '../src/quantity.ts';

const LENGTH: QuantitySpec = { label: 'length', kind: 'length', min: -1, max: 2, unit: 'in' };
const SHARE: QuantitySpec = { label: 'share', kind: 'ratio', min: 0, max: 1, unit: '' };
const WARMTH: QuantitySpec = { label: 'air', kind: 'temperature', min: 250, max: 330, unit: 'degF' };

const value = (raw: unknown, spec: QuantitySpec) => {
  const read = readQuantity(raw, spec);
  return read.ok ? read.value : read.problem.code;
};

test('a tape reading is read as it stands on the tape', () => {
  const inches = 0.0254;
  expect(value('39 1/4 in', LENGTH)).toBeCloseTo(39.25 * inches, 15);
  expect(value('39-1/4 in', LENGTH)).toBeCloseTo(39.25 * inches, 15);
  expect(value('3/8in', LENGTH)).toBeCloseTo(0.375 * inches, 15);
  expect(value('-1 1/2 in', LENGTH)).toBeCloseTo(-1.5 * inches, 15);
  expect(value('.5 in', LENGTH)).toBeCloseTo(0.5 * inches, 15);
});

test('a share may be a number, a percentage or a chance', () => {
  expect(value(0.52, SHARE)).toBe(0.52);
  expect(value('52 %', SHARE)).toBeCloseTo(0.52, 15);
  expect(value('1 in 2000', SHARE)).toBe(1 / 2000);
  expect(value('1 in 2,000', SHARE)).toBe(1 / 2000);
});

test('what is no quantity never becomes a number', () => {
  expect(value(12, LENGTH)).toBe('missing-unit');
  expect(value('12', LENGTH)).toBe('missing-unit');
  expect(value('12 psi', LENGTH)).toBe('unknown-unit');
  expect(value('12 "in"', LENGTH)).toBe('unknown-unit');
  expect(value('8-Jul', LENGTH)).toBe('not-a-number');
  expect(value('315/60-15', LENGTH)).toBe('not-a-number');
  expect(value('6.5 ± 0.3 in', LENGTH)).toBe('bare-tolerance');
  expect(value('6.5 +/- 0.3 in', LENGTH)).toBe('bare-tolerance');
  expect(value('6.5 +-0.3 in', LENGTH)).toBe('bare-tolerance');
  expect(value('6,5 in', LENGTH)).toBe('not-a-number');
  expect(value('1/0 in', LENGTH)).toBe('not-a-number');
  expect(value('in', LENGTH)).toBe('not-a-number');
  expect(value('', LENGTH)).toBe('not-a-number');
  expect(value(null, LENGTH)).toBe('wrong-type');
  expect(value(['1 in'], LENGTH)).toBe('wrong-type');
  expect(value(true, SHARE)).toBe('wrong-type');
  expect(value(Number.NaN, SHARE)).toBe('not-a-number');
  expect(value(Number.POSITIVE_INFINITY, SHARE)).toBe('not-a-number');
  expect(value('1 in 0', SHARE)).not.toBeTypeOf('number');
  expect(value('1e400 in', LENGTH)).toBe('not-a-number');
});

test('a bound counts as inside, whatever unit it is written in', () => {
  const tape: QuantitySpec = { ...LENGTH, min: 0, max: 15 * 0.0254 };
  expect(value('381 mm', tape)).toBeTypeOf('number');
  expect(value('15 in', tape)).toBeTypeOf('number');
  expect(value('15.001 in', tape)).toBe('out-of-range');
});

test('a spread of a temperature has no zero point', () => {
  expect(readSpread('9 degF', WARMTH)).toEqual({ ok: true, value: 5 });
  expect(readSpread('0 degF', WARMTH).ok).toBe(false);
  expect(readSpread('-1 K', WARMTH).ok).toBe(false);
});

test('an editor takes the spellings that the reader takes, and no others', () => {
  const { $defs } = caseJsonSchema() as { $defs: Record<string, { pattern?: string }> };
  const taken = [
    [
      'length',
      ['39-1/4"', '39 1/4”', '39.25in', '39¼"', `3'3"`, "3'3", `3' 3 1/2"`, '3 ft 3 in', '98 cm', '1,320 ft'],
    ],
    ['mass', ['3,400 lb', '3400lbs', '1540 kg']],
    ['speed', ['224mph', '360 kph']],
    ['pressure', ['6psi']],
    ['stiffness', ['190 lb/in']],
  ] as const;
  const refused = [
    ['length', ['39', '8-Jul', '315/60-15', '6,5 in', '3 ft2', '3 4 in']],
    ['mass', ['3400', '3400 psi']],
  ] as const;
  const read = (kind: 'length' | 'mass', raw: string) =>
    readQuantity(raw, { ...LENGTH, kind, min: 0, max: 1e6 }).ok;
  for (const [kind, texts] of [...taken, ...refused]) {
    const pattern = new RegExp($defs[kind]!.pattern!, 'u');
    for (const text of texts) expect(pattern.test(text), text).toBe(read(kind as 'length', text));
  }
});
