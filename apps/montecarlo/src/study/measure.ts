import { findUnit, type QuantityKind, readNumber, UNITS } from '@tubgap/casefile';

/** A number as written, in its own unit. */
export interface Measure {
  number: number;
  /** As it was written; empty for a ratio, or when it is missing. */
  unit: string;
}

/** Number and unit of a text such as '39 1/4 in', or undefined when it is none. */
export function readMeasure(text: string): Measure | undefined {
  const parts = /^([-+\d./\s]*\d\.?)\s*([^\d\s].*)?$/.exec(text.trim());
  const number = parts?.[1] === undefined ? undefined : readNumber(parts[1].trim());
  return number === undefined ? undefined : { number, unit: parts?.[2]?.trim() ?? '' };
}

const kindsOf = (unit: string): QuantityKind[] =>
  (Object.keys(UNITS) as QuantityKind[]).filter((kind) => findUnit(kind, unit) !== undefined);

/** A measure as a number in another unit; undefined when the two do not measure the same. */
export function inUnit({ number, unit }: Measure, wanted: string): number | undefined {
  if (unit === wanted) return number;
  const kind = kindsOf(unit).find((own) => findUnit(own, wanted) !== undefined);
  if (kind === undefined) return undefined;
  const from = findUnit(kind, unit)!;
  const to = findUnit(kind, wanted)!;
  return roundOff((number * from.factor + from.offset - to.offset) / to.factor);
}

/** A value in SI as a number in a unit; undefined when the unit is none of its kind. */
export function fromSi(value: number, kind: QuantityKind, unit: string): number | undefined {
  const to = findUnit(kind, unit);
  return to === undefined ? undefined : roundOff((value - to.offset) / to.factor);
}

/** A length as written, m; undefined when it is none. */
export function metresOf(text: string): number | undefined {
  const measure = readMeasure(text);
  const unit = measure === undefined ? undefined : findUnit('length', measure.unit);
  return unit === undefined ? undefined : measure!.number * unit.factor;
}

/** Without the noise of the last digits. */
export const roundOff = (value: number): number => Number(value.toPrecision(12));

/** A measure as a case file writes it. */
export const measureText = (number: number, unit: string): string => `${roundOff(number)} ${unit}`.trim();
