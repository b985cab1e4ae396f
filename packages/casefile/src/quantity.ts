import {
  findUnit,
  formatQuantity,
  fractionOfDate,
  kindsWithUnit,
  parseMeasure,
  type QuantityKind,
  UNITS,
  type Unit,
  unitList,
} from '@tubgap/units';
import type { Problem } from './issue.ts';
import { nameList, nearestName } from './nearest-name.ts';

/** A number as read, or why it is none. */
export type Reading<T> = { ok: true; value: T } | { ok: false; problem: Problem };

/** What a single number of the file must be. Range in SI, bounds included. */
export interface QuantitySpec {
  label: string;
  kind: QuantityKind;
  min: number;
  max: number;
  /** Unit for ranges in messages, one of `UNITS[kind]`. */
  unit: string;
  /** The range in words where one pair of numbers does not tell it. */
  allowed?: string;
  /** Why the range ends where it does, when that is not plain. */
  why?: string;
}

const CHANCE = /^1 in (\d+|\d{1,3}(?:,\d{3})+)$/;

/** Names in daily use that are not read, so that no one has to guess what they stand for, but are understood. */
const LOOSE_NAMES: Readonly<Partial<Record<string, string>>> = {
  '#': 'lb',
  c: 'degC',
  f: 'degF',
};

const problem = (code: Problem['code'], reason: string, rest: Partial<Problem> = {}) =>
  ({ ok: false, problem: { code, reason, ...rest } }) as const;

/** "3 psi to 15 psi": a range as messages and the schema's descriptions print it. */
export function rangeText(spec: QuantitySpec): string {
  const text = (value: number) => formatQuantity(value, spec.kind, spec.unit);
  return spec.allowed ?? `${text(spec.min)} to ${text(spec.max)}`;
}

function unknownUnit(read: string, value: number, kind: QuantityKind): Reading<never> {
  const names = UNITS[kind].map((unit) => unit.name).filter((name) => name !== '');
  const other = kindsWithUnit(read).find((candidate) => candidate !== kind);
  const reason = other
    ? `${read} is a unit of ${other}; allowed here are ${unitList(kind)}`
    : `"${read}" is not a unit of ${kind}; allowed are ${unitList(kind)}`;
  const nearest = names.find((name) => name === LOOSE_NAMES[read.toLowerCase()]) ?? nearestName(read, names);
  const hint = nearest === undefined ? {} : { hint: `Did you mean ${value} ${nearest}?` };
  return problem('unknown-unit', reason, { allowed: unitList(kind), ...hint });
}

/** What a spreadsheet makes of a fraction: 8-Jul of 7/8. Undefined where the text is no date. */
export function dateProblem(text: string): Problem | undefined {
  const fraction = fractionOfDate(text);
  if (fraction === undefined) return undefined;
  const [above, below] = fraction.split('/').map(Number) as [number, number];
  const reason = 'this is a date: a spreadsheet makes one of a fraction that is typed into it';
  const decimal = Number((above / below).toFixed(5));
  return { code: 'not-a-number', reason, hint: `Where ${fraction} was meant, type ${decimal}` };
}

function readText(text: string, kind: QuantityKind): Reading<{ number: number; unit: Unit }> {
  if (/±|\+\s*\/?\s*-/.test(text)) {
    const reason = 'a bare ± does not say what it means: a standard deviation, a limit, new every run or not';
    const hint =
      'Write { law: normal, mean: …, sd: …, each: run } or { law: uniform, low: …, high: …, each: car }';
    return problem('bare-tolerance', reason, { hint });
  }
  const chance = kind === 'ratio' ? CHANCE.exec(text) : null;
  if (chance?.[1]) {
    const trials = Number(chance[1].replaceAll(',', ''));
    if (trials > 0) return { ok: true, value: { number: 1 / trials, unit: UNITS.ratio[0]! } };
  }
  const measure = parseMeasure(text);
  if (measure === undefined) {
    const date = dateProblem(text);
    if (date) return { ok: false, problem: date };
    const example =
      kind === 'ratio' ? 'a number such as 0.52 or 52 %' : `a number and a unit, ${unitList(kind)}`;
    const comma = /\d,\d/.test(text);
    const hint = comma
      ? { hint: 'Write a point before decimals; a comma only parts thousands, as in 3,400' }
      : {};
    return problem('not-a-number', `expected ${example}`, hint);
  }
  const { number, unit: unitName } = measure;
  const unit = findUnit(kind, unitName);
  if (unit) return { ok: true, value: { number, unit } };
  return unitName === '' ? missingUnit(number, kind) : unknownUnit(unitName, number, kind);
}

function missingUnit(number: number, kind: QuantityKind): Reading<never> {
  const choices = nameList(UNITS[kind].map((unit) => `${number} ${unit.name}`));
  return problem('missing-unit', `the unit is missing: write ${choices}`, { allowed: unitList(kind) });
}

/** That a value is of the wrong sort, in words. */
export function misplaced(raw: unknown): string {
  if (raw === null) return 'nothing is written here';
  const words: Partial<Record<string, string>> = {
    string: 'text',
    number: 'a number',
    boolean: 'true or false',
  };
  const sort = Array.isArray(raw) ? 'a list' : (words[typeof raw] ?? 'a group of fields');
  return `${sort} cannot stand here`;
}

/** Number and unit of one kind, whatever their size. A bare number is a ratio; anything else needs its unit. */
export function readMeasure(raw: unknown, kind: QuantityKind): Reading<{ number: number; unit: Unit }> {
  if (typeof raw === 'string') return readText(raw.trim(), kind);
  const example = kind === 'ratio' ? 'a number' : `a number and a unit (${unitList(kind)})`;
  if (raw === undefined) return problem('missing', `this is missing; expected ${example}`);
  if (typeof raw !== 'number') return problem('wrong-type', `${misplaced(raw)}; expected ${example}`);
  if (!Number.isFinite(raw)) return problem('not-a-number', `expected ${example}`);
  return kind === 'ratio'
    ? { ok: true, value: { number: raw, unit: UNITS.ratio[0]! } }
    : missingUnit(raw, kind);
}

/** A bound written in another unit still counts as inside: 381 mm is 15 in but for the last bit. */
function inRange(value: number, { min, max }: QuantitySpec): boolean {
  const slack = 1e-12 * (max - min);
  return value >= min - slack && value <= max + slack;
}

/** Units of a kind, from the first, that are likely to be mistaken for one another. */
const USUAL_UNITS = 3;

/** The slip that would explain a value out of range: a decimal point, or another unit. */
function likelySlip(number: number, unit: Unit, spec: QuantitySpec): string | undefined {
  const fits = (value: number, at: Unit) => {
    return inRange(value * at.factor + at.offset, spec);
  };
  const text = (value: number, at: Unit) => `${Number(value.toPrecision(12))} ${at.name}`.trim();
  for (const factor of [0.1, 10, 0.01]) {
    if (fits(number * factor, unit)) return `Did you mean ${text(number * factor, unit)}?`;
  }
  const other = UNITS[spec.kind]
    .slice(0, USUAL_UNITS)
    .find((candidate) => candidate !== unit && fits(number, candidate));
  return other && other.name !== '' ? `Did you mean ${text(number, other)}?` : undefined;
}

/** A quantity of the kind and in the range asked for, SI. */
export function readQuantity(raw: unknown, spec: QuantitySpec): Reading<number> {
  const read = readMeasure(raw, spec.kind);
  if (!read.ok) return read;
  const { number, unit } = read.value;
  const value = number * unit.factor + unit.offset;
  if (inRange(value, spec)) return { ok: true, value };
  const allowed = rangeText(spec);
  const hint = likelySlip(number, unit, spec);
  const reason = `${spec.label} must be ${allowed}${spec.why === undefined ? '' : `; ${spec.why}`}`;
  return problem('out-of-range', reason, { allowed, ...(hint === undefined ? {} : { hint }) });
}

/** A standard deviation in the quantity's own units, SI, more than 0; a temperature's has no offset. */
export function readSpread(raw: unknown, spec: QuantitySpec): Reading<number> {
  const read = readMeasure(raw, spec.kind);
  if (!read.ok) return read;
  const value = read.value.number * read.value.unit.factor;
  const most = spec.max - spec.min;
  if (value > 0 && value <= most) return { ok: true, value };
  const unit = UNITS[spec.kind].find((candidate) => candidate.name === spec.unit)!;
  const allowed =
    `more than 0 and at most ${Number((most / unit.factor).toPrecision(4))} ${unit.name}`.trim();
  return problem('out-of-range', `a standard deviation must be ${allowed}`, { allowed });
}

/** '39.25 in': a length in a message. @param metres  m */
export const inInches = (metres: number): string => formatQuantity(metres, 'length', 'in');
