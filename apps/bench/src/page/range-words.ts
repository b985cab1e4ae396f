import { findUnit, type QuantityKind, UNITS } from '@tubgap/units';
import type { Moved, Range } from '../worker/moved-inputs.ts';
import { speedText, type Units } from './words.ts';

/** What a shop that works in millimetres reads other quantities in. */
const METRIC: Partial<Record<QuantityKind, string>> = {
  length: 'mm',
  mass: 'kg',
  force: 'N',
  pressure: 'kPa',
  stiffness: 'N/mm',
  speed: 'km/h',
  temperature: 'degC',
  'temperature difference': 'degC',
  'areal density': 'kg/m2',
  'length per pressure': 'mm/kPa',
};

/** '1.18 in (0.79 to 1.82)': the middle, and what nine in ten lie between, with digits enough to tell them apart. */
function rangeText([low, middle, high]: Range, kind: QuantityKind, units: Units): string {
  const unit = findUnit(kind, (units === 'mm' && METRIC[kind]) || UNITS[kind][0]!.name)!;
  const decimals = Math.max(0, Math.min(8, Math.ceil(-Math.log10((high - low) / unit.factor / 10))));
  const text = (value: number): string => ((value - unit.offset) / unit.factor).toFixed(decimals);
  return `${`${text(middle)} ${unit.name}`.trim()} (${text(low)} to ${text(high)})`;
}

/** 'growth of tall-slick at 224 mph was taken as …; what was typed in makes it …'. */
export function movedText({ label, tyre, speed, kind, before, after }: Moved, units: Units): string {
  const what = `${label}${tyre === undefined ? '' : ` of ${tyre}`}${speed === undefined ? '' : ` at ${speedText(speed, units)}`}`;
  return `${what} was taken as ${rangeText(before, kind, units)}; what was typed in makes it ${rangeText(after, kind, units)}`;
}
