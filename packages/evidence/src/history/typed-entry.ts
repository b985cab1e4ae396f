import { findUnit, type LengthUnits, parseMeasure, usualUnit } from '@tubgap/units';
import {
  ANGLE,
  CENTRE_FORWARD,
  MEASURED_GAP,
  RUNS,
  SPEED_HIGH,
  SPEED_LOW,
  TOP_THEN,
} from '../tables/columns.ts';
import { type NumberColumn, outOfRange } from '../tables/measured-table.ts';
import { type EntryKind, isDay, NEEDED } from './entries.ts';
import type { NewEntry } from './history-row.ts';

const WORDS = ['tyre', 'batch', 'tub', 'mark', 'note'] as const;
const NUMBERS = {
  top_height: TOP_THEN,
  centre_forward: CENTRE_FORWARD,
  runs: RUNS,
  speed_low: SPEED_LOW,
  speed_high: SPEED_HIGH,
  angle: ANGLE,
  measured: MEASURED_GAP,
} as const satisfies Readonly<Record<string, NumberColumn>>;

/** A head of a history under which something can be typed. */
export type EntryField = (typeof WORDS)[number] | keyof typeof NUMBERS;

/** What each kind of entry is asked for, in the order in which somebody at the car would tell it. */
export const ENTRY_FIELDS: Readonly<Record<EntryKind, readonly EntryField[]>> = {
  tyre: ['tyre', 'batch', 'note'],
  tub: ['tub', 'top_height', 'centre_forward', 'note'],
  gap: ['angle', 'measured', 'tub', 'top_height', 'note'],
  runs: ['tyre', 'runs', 'speed_low', 'speed_high', 'mark', 'tub', 'top_height', 'note'],
  'looked into': ['note'],
};

/** What of an entry is typed in: the day and, by head, the rest as it was written; a number may have its unit behind it. */
export interface TypedEntry {
  date: string;
  kind: EntryKind;
  fields: Readonly<Partial<Record<EntryField, string>>>;
}

/** Why what was typed under a head cannot be: nothing stands there, it cannot be read, or it is out of range. */
export type FieldProblem =
  | { code: 'missing' | 'unreadable' }
  /** SI, both included. */
  | { code: 'range'; column: NumberColumn };

export type EntryProblems = Partial<Record<EntryField | 'date', FieldProblem>>;

/** A number that was typed, SI; undefined when it is none. @param units  of one without a unit behind it */
function typedNumber(text: string, { kind }: NumberColumn, units: LengthUnits): number | undefined {
  // A comma parts decimals where somebody's phone has no point.
  const measure = parseMeasure(text.replace(/^(\D*\d+),(\d{1,2})(?!\d)/, '$1.$2'));
  if (measure === undefined) return undefined;
  const { number, unit: name } = measure;
  if (kind === 'count') return name === '' && Number.isInteger(number) ? number : undefined;
  const unit = name === '' ? usualUnit(kind, units) : findUnit(kind, name);
  return unit && number * unit.factor + unit.offset;
}

/**
 * An entry of what was typed at the car, or what is wrong with it head by head. Whether the rest of the history lets it
 * stand is asked by `enteredHistory`.
 * @param units  in which a bare number is meant: inches and mph, or millimetres and km/h
 */
export function typedEntry(
  { date, kind, fields }: TypedEntry,
  units: LengthUnits,
): { entry: NewEntry } | { problems: EntryProblems } {
  const problems: EntryProblems = isDay(date)
    ? {}
    : { date: { code: date.trim() === '' ? 'missing' : 'unreadable' } };
  const words: Record<string, string> = {};
  const numbers: Record<string, number> = {};
  for (const field of ENTRY_FIELDS[kind]) {
    const text = fields[field]?.trim() ?? '';
    if (text === '') {
      if (NEEDED[kind].includes(field)) problems[field] = { code: 'missing' };
      continue;
    }
    if (!(field in NUMBERS)) {
      words[field] = text;
      continue;
    }
    const column = NUMBERS[field as keyof typeof NUMBERS];
    const value = typedNumber(text, column, units);
    if (value === undefined) problems[field] = { code: 'unreadable' };
    else if (outOfRange(column, value)) problems[field] = { code: 'range', column };
    else numbers[field] = value;
  }
  return Object.keys(problems).length > 0 ? { problems } : { entry: { date, kind, words, numbers } };
}
