import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  alongText,
  angleHeading,
  angleWords,
  ceilTo,
  chanceCell,
  figuresIn,
  fractionOfDate,
  gapWords,
  inchCell,
  isOnTape,
  oneIn,
  onTape,
  outOf,
  parseMeasure,
  percentText,
  readLength,
  readNumber,
  shopWords,
  shownLength,
  shownQuantity,
  sixteenths,
  unitsOfMost,
} from '../src/index.ts';

// International yard and pound agreement of 1959.
const INCH = 0.0254;
const ROUNDINGS = ['up', 'down', 'nearest'] as const;
const metres = fc.double({ min: -3, max: 3, noNaN: true });

test('a length in words is the next sixteenth on the side that was asked for, in lowest terms, and reads back', () => {
  fc.assert(
    fc.property(metres, (length) => {
      const inches = length / INCH;
      const [up, down, nearest] = ROUNDINGS.map((way) => readLength(sixteenths(length, way))! / INCH) as [
        number,
        number,
        number,
      ];
      expect(up).toBeGreaterThanOrEqual(inches - 1e-6);
      expect(down).toBeLessThanOrEqual(inches + 1e-6);
      expect(up - down).toBeLessThanOrEqual(1 / 16 + 1e-9);
      expect(Math.abs(nearest - inches)).toBeLessThanOrEqual(1 / 32 + 1e-9);
      expect(sixteenths(length, 'up')).not.toMatch(/[02468]\/(?:2|4|8|16) /);
      for (const way of ROUNDINGS) {
        expect(readLength(sixteenths(length, way))).toBeCloseTo(onTape(length, way), 12);
        expect(isOnTape(onTape(length, way))).toBe(true);
      }
    }),
  );
});

test('rounding errors of a height that is a sixteenth do not move it', () => {
  expect(sixteenths(39.3125 * INCH * (1 + 1e-14), 'up')).toBe('39 5/16 in');
  expect(sixteenths(39.3125 * INCH * (1 - 1e-14), 'down')).toBe('39 5/16 in');
  expect(isOnTape(39.3125 * INCH * (1 + 1e-14))).toBe(true);
  expect(isOnTape(39.32 * INCH)).toBe(false);
  expect(ceilTo(1.25 * INCH * (1 + 1e-14), INCH / 4)).toBeCloseTo(1.25 * INCH, 12);
  expect(ceilTo(1.26 * INCH, INCH / 4)).toBeCloseTo(1.5 * INCH, 12);
  expect([0, -0.5 * INCH, INCH].map((length) => sixteenths(length, 'nearest'))).toEqual([
    '0 in',
    '−1/2 in',
    '1 in',
  ]);
});

test('a length on show has millimetres on the side that its inches are on, of the exact length', () => {
  fc.assert(
    fc.property(metres, fc.constantFrom(...ROUNDINGS), (length, way) => {
      const shown = shownLength(length, way);
      expect(shown.inch).toBe(sixteenths(length, way));
      expect(shown.both).toBe(`${shown.inch} (${shown.mm})`);
      const off = readLength(shown.mm.replace(',', ''))! - length;
      expect(Math.abs(off)).toBeLessThanOrEqual((way === 'nearest' ? 0.5 : 1) * 1e-3 + 1e-8);
      if (way !== 'nearest') expect(way === 'up' ? off : -off).toBeGreaterThan(-1e-8);
    }),
  );
  // 155.4 mm lies between two sixteenths: its own millimetre, not that of the tape's mark.
  expect(shownLength(0.1554, 'up').both).toBe('6 1/8 in (156 mm)');
  expect(shownLength(0.1554, 'down').both).toBe('6 1/16 in (155 mm)');
  expect(shownLength(27, 'up').both).toBe('1,063 in (27,000 mm)');
  expect(alongText(0.25 * INCH, 'both')).toBe('1/4 in (6 mm) ahead of the axle');
  expect([alongText(-0.0009, 'inch'), alongText(0.0007, 'mm')]).toEqual([
    '1/16 in behind the axle',
    '1 mm ahead of the axle',
  ]);
  expect([gapWords(0.0127), gapWords(0.0127, 'mm'), gapWords(0)]).toEqual(['1/2 in', '12 mm', 'none']);
});

test('what two shown lengths differ by is what their figures differ by, and never too little', () => {
  fc.assert(
    fc.property(metres, metres, (needs, has) => {
      const more = figuresIn('inch').tapeDifference([needs, 'up'], [has, 'down']);
      const read = (text: string): number => readLength(text.replace(',', ''))!;
      expect(more).toBeCloseTo(read(sixteenths(needs, 'up')) - read(sixteenths(has, 'down')), 12);
      expect(more).toBeGreaterThan(needs - has - 1e-8);
    }),
  );
});

test('a share is told in whole percent, and a small one is not told to be none', () => {
  expect([0, 0.0004, 0.0051, 0.143, 0.995, 1].map(percentText)).toEqual([
    '0 %',
    '0.04 %',
    '0.5 %',
    '14 %',
    '100 %',
    '100 %',
  ]);
});

test('a change of height asks for more than it is or gives less, and is none where a tape shows none', () => {
  fc.assert(
    fc.property(fc.double({ min: -0.1, max: 0.1, noNaN: true }), (change) => {
      const told = figuresIn('inch').changeText(change);
      if (told === undefined) {
        expect(change).toBeGreaterThan(-(INCH / 16));
        expect(change).toBeLessThanOrEqual(INCH / 32);
        return;
      }
      const [, size, way] = /^(.* in) (more|less)$/.exec(told)!;
      const length = readLength(size!)!;
      expect(way).toBe(change > 0 ? 'more' : 'less');
      expect(length).toBeGreaterThan(0);
      expect(way === 'more' ? length - change : -change - length).toBeGreaterThan(-1e-7);
    }),
  );
  expect(
    [-0.1218, -0.1225, -0.05, 0.05].map((inches) => figuresIn('inch').changeText(inches * INCH)),
  ).toEqual(['1/16 in less', '1/16 in less', undefined, '1/16 in more']);
});

test('a cell of inches lies on the side that was asked for, within a ten-thousandth', () => {
  fc.assert(
    fc.property(metres, (length) => {
      const inches = length / INCH;
      const { cellUp, cellDown, cell } = figuresIn('inch');
      const [up, down, plain] = [cellUp, cellDown, cell].map((text) => Number(text(length))) as [
        number,
        number,
        number,
      ];
      expect(up).toBeGreaterThanOrEqual(inches - 1e-9);
      expect(down).toBeLessThanOrEqual(inches + 1e-9);
      expect(up - down).toBeLessThanOrEqual(1.0001e-4);
      expect(Math.abs(plain - inches)).toBeLessThanOrEqual(0.50001e-4);
    }),
  );
  expect([inchCell(null), inchCell(undefined), chanceCell(undefined), chanceCell(0)]).toEqual([
    '',
    '',
    '',
    '0',
  ]);
});

test('a chance is never said smaller than it is, nor much larger', () => {
  fc.assert(
    fc.property(fc.double({ min: 1e-7, max: 1, noNaN: true }), (chance) => {
      const [above, below] = oneIn(chance).replaceAll(',', '').split(' in ').map(Number) as [number, number];
      expect(above / below).toBeGreaterThanOrEqual(chance * (1 - 1e-9));
      expect(above / below).toBeLessThanOrEqual(chance < 0.1 ? chance * 1.1 : chance + 0.18);
      expect(1 / Number(outOf(chance).replaceAll(',', ''))).toBeGreaterThanOrEqual(chance * (1 - 1e-9));
    }),
  );
  expect([0, 1 / 2345, 0.5, 0.701, 1].map(oneIn)).toEqual([
    'none',
    '1 in 2,300',
    '50 in 100',
    '71 in 100',
    '100 in 100',
  ]);
});

test('numbers and lengths are read as a tape and a file write them', () => {
  expect(['39 1/4', '39-1/4', '-3/8', '.5', '1e3', '39 5/4', '1/0', '1,320'].map(readNumber)).toEqual([
    39.25,
    39.25,
    -0.375,
    0.5,
    1000,
    undefined,
    undefined,
    undefined,
  ]);
  expect(parseMeasure(' 39 1/4in ')).toEqual({ number: 39.25, unit: 'in' });
  expect(parseMeasure('52 %')).toEqual({ number: 52, unit: '%' });
  const none = [
    '',
    'in',
    '3 4 in',
    '1,32 ft',
    '0,125 in',
    '6,5 in',
    '1.2.3 in',
    '4 -1 in',
    '315/60-15',
    `3'14"`,
  ];
  expect(none.map(parseMeasure)).toEqual(none.map(() => undefined));
  expect(readLength('1000 mm')).toBeCloseTo(1, 15);
  expect([readLength('6 psi'), readLength('39'), readLength('')]).toEqual([undefined, undefined, undefined]);
  expect(readLength('39', 'mm')).toBeCloseTo(0.039, 15);
  expect(readLength('39 cm', 'in')).toBeCloseTo(0.39, 15);
});

// Each by hand: 39 1/4 in is 0.99695 m, 39 1/2 in 1.0033 m, 3 ft 3 in is 39 in.
const spellings = [
  ['39-1/4"', 39.25],
  ['39 1/4”', 39.25],
  ['39 - 1/4 in', 39.25],
  ['39–1/4″', 39.25],
  ["39 1/4''", 39.25],
  ['39.25in', 39.25],
  ['39.25 inches', 39.25],
  ['39¼"', 39.25],
  ['39 ¼ in', 39.25],
  ['39 1⁄4 in', 39.25],
  ['39\u00a01/4\u00a0in', 39.25],
  ['-¼ in', -0.25],
  ['−1/4 in', -0.25],
  ['.5"', 0.5],
  [`3'3"`, 39],
  ["3'3", 39],
  [`3' 3 1/2"`, 39.5],
  [`3’ 3-1/2”`, 39.5],
  ['3 ft 3 1/2 in', 39.5],
  ['3ft 3½in', 39.5],
  ['-1\' 2"', -14],
  ["6'", 72],
  ['6 feet', 72],
  ['1.9"', 1.9],
  ['980 mm', 980 / 25.4],
  ['98cm', 980 / 25.4],
  ['1,320 ft', 15840],
] as const;

test('a length is read in every way that a fabricator writes it', () => {
  expect(spellings).toHaveLength(27);
  for (const [text, inches] of spellings) {
    expect(readLength(text)! / INCH, text).toBeCloseTo(inches, 9);
  }
  expect(['6psi', '224mph', '3,400 lb', '200,000'].map(parseMeasure)).toEqual([
    { number: 6, unit: 'psi' },
    { number: 224, unit: 'mph' },
    { number: 3400, unit: 'lb' },
    { number: 200_000, unit: '' },
  ]);
});

test('a fraction is known again in the date that a spreadsheet made of it', () => {
  const dates = [
    '8-Jul',
    '7-Aug',
    'Jul-08',
    '08-Jul-2026',
    '8. Jul',
    '2026-07-08',
    '2026-07-08 00:00:00',
    '16-Mar',
  ];
  expect(dates.map(fractionOfDate)).toEqual(['7/8', '7/8', '7/8', '7/8', '7/8', '7/8', '7/8', '3/16']);
  const none = ['7/8', '39 7/8', '8 in', '32-Jul', '8-Jux', '3-1/2', 'July', ''];
  expect(none.map(fractionOfDate)).toEqual(none.map(() => undefined));
});

test('a hub angle is told ahead of the top or behind it', () => {
  const told = [-30, -0.2, 0, 15].map((degrees) => (degrees * Math.PI) / 180);
  expect(told.map(angleWords)).toEqual([
    '30° behind the top',
    'straight up',
    'straight up',
    '15° ahead of the top',
  ]);
  expect(told.map(angleHeading)).toEqual(['30° behind', 'straight up', 'straight up', '15° ahead']);
});

test('parts the thousands of a quantity that is shown, and leaves its decimals', () => {
  expect(shownQuantity(2480 * 0.45359237, 'mass')).toBe('2,480 lb');
  expect(shownQuantity(248.5 * 0.45359237, 'mass')).toBe('248.5 lb');
});

test('what no tool of the shop shows is told in a unit that one does; what was written in such a unit stays as it was', () => {
  const told = [
    // 15 K are 27 °F and 6 K 10.8 °F of difference; 82 °F are 27.8 °C, 9 °F of spread 5 °C.
    [
      'truncated, mean 15 K, sd 6 K, low 0 K',
      'temperature difference',
      'mean 27 °F, sd 11 °F, low 0 °F',
      'mean 15 °C, sd 6 °C, low 0 °C',
    ],
    ['normal, mean 82 degF, sd 9 degF', 'temperature', 'mean 82 °F, sd 9 °F', 'mean 28 °C, sd 5 °C'],
    // Of the international yard (1959): 30 m/s are 67.1 mph and 108 km/h; 0.58 m² are 6.24 ft².
    [
      'triangular, low 30 m/s, mode 45 m/s',
      'speed',
      'low 67 mph, mode 101 mph',
      'low 108 km/h, mode 162 km/h',
    ],
    ['log-normal, median 0.58 m2, cov 0.08', 'area', 'median 6.24 ft², cov 0.08', 'median 0.58 m², cov 0.08'],
    [
      'measured, values 105 7/8 in, 2480 mm',
      'length',
      'values 105 7/8 in, 98 in',
      'values 2,689 mm, 2,480 mm',
    ],
    ['triangular, mode 2.2254 g, high 3 g', 'acceleration', 'mode 2.23 g, high 3 g', 'mode 2.23 g, high 3 g'],
    ['normal, mean -10 deg, sd 5 deg', 'angle', 'mean −10°, sd 5°', 'mean −10°, sd 5°'],
    [
      'normal, mean 2480 lb, sd 15 lb, 52 %',
      'mass',
      'mean 2,480 lb, sd 15 lb, 52 %',
      'mean 1,125 kg, sd 6.8 kg, 52 %',
    ],
  ] as const;
  for (const [words, kind, inch, mm] of told) {
    expect(shopWords(words, 'inch', kind)).toContain(inch);
    expect(shopWords(words, 'mm', kind)).toContain(mm);
  }
});

test('texts speak in the units of most of their lengths, inches in doubt', () => {
  expect(unitsOfMost(['12 mm', '3/4 in', '1.2 m', 'no length', '30 kPa'], ['length'])).toBe('mm');
  expect(unitsOfMost(['12 mm', '3/4 in', '30 kPa'], ['length'])).toBe('inch');
  expect(unitsOfMost(['12 mm', '3/4 in', '30 kPa'])).toBe('mm');
  expect(unitsOfMost(['street-42'])).toBe('inch');
});
