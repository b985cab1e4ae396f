import { findUnit, kindsWithUnit, type Measure, type QuantityKind } from '@tubgap/units';

/** A measure as a number in another unit; undefined when the two do not measure the same. */
export function inUnit({ number, unit }: Measure, wanted: string): number | undefined {
  if (unit === wanted) return number;
  const kind = kindsWithUnit(unit).find((own) => findUnit(own, wanted) !== undefined);
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

/** Without the noise of the last digits. */
export const roundOff = (value: number): number => Number(value.toPrecision(12));

/** A measure as a case file writes it. */
export const measureText = (number: number, unit: string): string => `${roundOff(number)} ${unit}`.trim();
