import { exactField, fieldSpec } from './defaults/field-spec.ts';
import type { CarRow } from './defaults/row.ts';
import {
  anyTyreSpec,
  carSpec,
  DEFAULTS,
  describeCarInput,
  describeClassField,
  describeClassInput,
  describeField,
  describeTyreInput,
  exactOrLawSpec,
} from './defaults.ts';
import { CONTROL } from './issue.ts';
import { uncertain } from './law.ts';
import { misplaced, type QuantitySpec, type Reading, readQuantity } from './quantity.ts';
import { definition, leaf } from './schema-parts.ts';

function readWhole(raw: unknown, spec: QuantitySpec): Reading<number> {
  const read = readQuantity(raw, spec);
  if (!read.ok || Number.isInteger(read.value)) return read;
  const reason = `${spec.label} must be a whole number`;
  return { ok: false, problem: { code: 'not-a-number', reason } };
}

/** An exact number of the table. */
export function exact(path: string) {
  const row = exactField(path);
  const spec = fieldSpec(row);
  return leaf((raw) => (row.whole ? readWhole(raw, spec) : readQuantity(raw, spec))).meta({
    description: describeField(row),
    $ref: definition(row.kind, false),
  });
}

/** The same where the class of a tyre may change it. */
export function exactChange(path: string) {
  const row = exactField(path);
  return exact(path).meta({ description: describeClassField(row), $ref: definition(row.kind, false) });
}

/** An exact number of the table that may be given with a law. */
export function exactOrLaw(path: string) {
  const row = exactField(path);
  return uncertain(exactOrLawSpec(path)).meta({
    description: describeField(row),
    $ref: definition(row.kind, true),
  });
}

/** Inputs without a prior: the case must give them. */
const given = new Set(DEFAULTS.car.filter((row) => row.prior.law === undefined).map((row) => row.path));
given.delete('run.finishAcceleration');

const rowsUnder = (place: string) =>
  DEFAULTS.car
    .filter(({ path }) => path.slice(0, path.lastIndexOf('.')) === place)
    .map((row): [string, CarRow] => [row.path.slice(place.length + 1), row]);

const carInput = (row: CarRow, description: string) =>
  uncertain(carSpec(row)).meta({ description, $ref: definition(row.kind, true) });

/** Every input of the car that stands directly under a section of the file. */
export function inputsUnder(place: string) {
  return Object.fromEntries(
    rowsUnder(place).map(([key, row]) => {
      const read = carInput(row, describeCarInput(row));
      return [key, given.has(row.path) ? read : read.optional()];
    }),
  );
}

/** The same inputs where the class of a tyre may change them: none of them must be there. */
export function changesUnder(place: string) {
  return Object.fromEntries(
    rowsUnder(place).map(([key, row]) => [key, carInput(row, describeClassInput(row)).optional()]),
  );
}

/** Every uncertain number of a tyre. */
export const tyreInputs = () =>
  Object.fromEntries(
    DEFAULTS.tyre.map((row) => {
      const meta = { description: describeTyreInput(row), $ref: definition(row.kind, true) };
      return [row.name, uncertain(anyTyreSpec(row)).meta(meta).optional()];
    }),
  );

/** Words for people, one line: text, or a number that serves as one. */
const words = (what: string, most: number, description: string) =>
  leaf((raw): Reading<string> => {
    const text = typeof raw === 'string' || typeof raw === 'number' ? String(raw).trim() : '';
    const steers = CONTROL.test(text);
    if (text !== '' && text.length <= most && !steers) return { ok: true, value: text };
    const found = raw === undefined ? 'this is missing' : misplaced(raw);
    const reason = steers ? 'a line end, or a letter that steers a terminal, stands in it' : found;
    const code = raw === undefined ? 'missing' : 'wrong-type';
    return {
      ok: false,
      problem: { code, reason: `${reason}; expected ${what} of 1 to ${most} letters on one line` },
    };
  }).meta({ description, type: ['string', 'number'] });

/** A name of the shop's own. */
export const name = (description: string) => words('a name', 80, description);

/** What a case is, for people. */
export const title = (description: string) => words('a title', 200, description);
