import { OTHER_NAMES, type QuantityKind, UNITS } from '@tubgap/units';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { caseJsonSchema } from '../src/index.ts';
import { readQuantity } from '../src/quantity.ts';
import { read, smallCase } from './small-case.ts';

/** What an editor underlines and what the program refuses, spelling by spelling, by an independent reader of JSON Schema. */
const schema = caseJsonSchema();
const ajv = new Ajv2020({ strict: false });
ajv.addSchema(schema, 'case');
const takes = (kind: QuantityKind): ((raw: unknown) => boolean) => {
  const check = ajv.compile({ $ref: `case#/$defs/${kind.replaceAll(' ', '-')}` });
  return (raw) => check(raw) === true;
};
const NUMBERS = [
  ...[
    '26',
    '26.5',
    '-3',
    '−3',
    '+4',
    '.5',
    '5.',
    '1e3',
    '1.5E-2',
    '0',
    '1,200',
    '12,000.5',
    '1,20',
    '01,200',
  ],
  ...[
    '39 1/4',
    '39-1/4',
    '39¼',
    '39 ¼',
    '¼',
    '7/8',
    '39 – 1/4',
    '1 / 2',
    '1/0',
    '39 1⁄4',
    '39.5 1/4',
    '1_000',
    '٣',
    'x',
    '',
  ],
];
const MARKS = ['', 'miles', 'IN', 'Psi', 'mPa', 'in.', 'lb ft'];
const spellings = (name: string): string[] => [
  name,
  ` ${name}`,
  `  ${name} `,
  name.replace('2', '²').replace('3', '³'),
  name.replace('2', '^2').replace('3', '^3'),
  name.replace('deg', '°'),
  name.replace('deg', '° '),
  name.replace('/', ' / '),
];

describe.each(Object.keys(UNITS) as QuantityKind[])(
  'the schema and the program take the same: %s',
  (kind) => {
    it('number by number and unit by unit', () => {
      const isTaken = takes(kind);
      const spec = {
        label: 'it',
        kind,
        unit: '',
        min: Number.NEGATIVE_INFINITY,
        max: Number.POSITIVE_INFINITY,
      };
      const units = UNITS[kind].flatMap(({ name }) => [name, ...(OTHER_NAMES[name] ?? [])]);
      const texts = NUMBERS.flatMap((number) =>
        [...new Set([...units, ...MARKS].flatMap(spellings))].map((unit) => number + unit),
      );
      const feet = [
        '3\'3"',
        "3' 3 1/2",
        '3 ft 3 1/2 in',
        '3ft3in',
        '3 feet 3',
        "3'13",
        '-3\'3"',
        '3’3”',
        '3 ft 3',
      ];
      const differ = [...texts, ...feet, 5, -1, 0, true, null, ''].filter(
        (raw) => isTaken(raw) !== readQuantity(raw, spec).ok,
      );
      expect(
        differ.map((raw) => `${JSON.stringify(raw)} ${isTaken(raw) ? 'schema alone' : 'program alone'}`),
      ).toEqual([]);
      expect(texts.filter((text) => isTaken(text)).length).toBeGreaterThan(20);
    });
  },
);

describe('the class of a tyre', () => {
  const check = ajv.getSchema('case')!;
  it.each([
    [{ run: { distance: '660 ft', gripLost: { chance: '20 %' } }, build: { reserve: '1 in' } }, true],
    [{ name: 'guests', accept: { runRisk: '1 in 5000' }, build: { addedMass: '20 kg' } }, true],
    [{ accept: { seasonRisk: '1 in 20' } }, false],
    [{ build: { pressure: '6 psi' } }, false],
    [{ run: { distance: 'far' } }, false],
    [{ name: { of: 'guests' } }, false],
  ])('is taken or refused alike: %j', (its, isTaken) => {
    const written = { ...smallCase(), tyres: [{ ...smallCase().tyres[0], class: its }] };
    expect([check(written), read(written).ok]).toEqual([isTaken, isTaken]);
  });
});
