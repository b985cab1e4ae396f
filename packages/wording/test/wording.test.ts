import fc from 'fast-check';
import { expect, test } from 'vitest';
import { csvText, inputNamed, inputWords, ofRuns, oneIn, sixteenths, unbroken } from '../src/index.ts';

const INCH = 0.0254;

/** Inches read back from words such as '39 5/16 in'. */
function read(text: string): number {
  const match = /^(-?)(\d+)?(?: ?(\d+)\/(\d+))? in$/.exec(text);
  if (match === null) throw new Error(text);
  const [, sign, whole = '0', above = '0', below = '1'] = match;
  return (sign === '-' ? -1 : 1) * (Number(whole) + Number(above) / Number(below));
}

test('a length in words is the next sixteenth on the side that was asked for, in lowest terms', () => {
  fc.assert(
    fc.property(fc.double({ min: -3, max: 3, noNaN: true }), (metres) => {
      const inches = metres / INCH;
      const [up, down, nearest] = (['up', 'down', 'nearest'] as const).map((way) =>
        read(sixteenths(metres, way)),
      ) as [number, number, number];
      expect(up).toBeGreaterThanOrEqual(inches - 1e-6);
      expect(down).toBeLessThanOrEqual(inches + 1e-6);
      expect(up - down).toBeLessThanOrEqual(1 / 16);
      expect(Math.abs(nearest - inches)).toBeLessThanOrEqual(1 / 32 + 1e-9);
      expect(sixteenths(metres, 'up')).not.toMatch(/[02468]\/(?:2|4|8|16) /);
    }),
  );
});

test('rounding errors of a height that is a sixteenth do not move it', () => {
  expect(sixteenths(39.3125 * INCH * (1 + 1e-14), 'up')).toBe('39 5/16 in');
  expect(sixteenths(39.3125 * INCH * (1 - 1e-14), 'down')).toBe('39 5/16 in');
});

test('a chance is never said smaller than it is, nor much larger', () => {
  fc.assert(
    fc.property(fc.double({ min: 1e-7, max: 0.49, noNaN: true }), (chance) => {
      const n = Number(oneIn(chance).replace('1 in ', '').replaceAll(',', ''));
      expect(1 / n).toBeGreaterThanOrEqual(chance * (1 - 1e-9));
      expect(n).toBeGreaterThan(0.9 / chance - 1);
    }),
  );
  expect(oneIn(0)).toBe('none');
  expect([ofRuns(0), ofRuns(3e-9), ofRuns(1 / 54)]).toEqual([
    'hardly any run',
    'hardly any run',
    '1 in 54 runs',
  ]);
});

test('a cell that a spreadsheet would run stands as text, a number as it is', async () => {
  const text = await csvText({
    header: ['name', 'value'],
    rows: [
      ['=1+1', -3.5],
      ['@x', '-3.5'],
      ['-x', '+1'],
      ["-2+3+cmd|' /C calc'!A0", '\uff1d1+1'],
      ['-1 1/16 in', '-5 %'],
      ['a, "b"', ''],
    ],
  });
  expect(text).toBe(
    "name,value\n'=1+1,-3.5\n'@x,-3.5\n'-x,'+1\n\"'-2+3+cmd|' /C calc'!A0\",'\uff1d1+1\n-1 1/16 in,-5 %\n" +
      '"a, ""b""",\n',
  );
});

test('a figure stays with its unit, and a chance with its number, while words still break', () => {
  const open = (text: string): string[] => unbroken(text).split(' ');
  expect(open('top 39 1/4 in (997 mm), at most 1 in 2,000 runs at 224 mph')).toEqual([
    'top',
    '39\u00a01/4\u00a0in',
    '(997\u00a0mm),',
    'at',
    'most',
    '1\u00a0in\u00a02,000',
    'runs',
    'at',
    '224\u00a0mph',
  ]);
  expect(open('put 2 inside, cut at 39 in 3 places')).toHaveLength(8);
});

test('an input is told by what it is in a workshop, and can still be found in the case', () => {
  expect(inputWords('growth scale')).toBe('how much the tyre grows with speed');
  expect(inputNamed('growth scale')).toMatch(/ \(growth scale\)$/);
  expect([inputWords('wheel rate'), inputNamed('wheel rate')]).toEqual(['wheel rate', 'wheel rate']);
});
