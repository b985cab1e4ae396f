import { INCH, type LengthUnits, MM_PER_INCH, wholeText } from '@tubgap/units';
import { multiples, stepFor, type Tick } from './axes.ts';

/** A unit along an axis of lengths. */
interface AxisUnit {
  name: 'in' | 'mm';
  /** m */
  size: number;
  /** Steps between ticks that people count in, of heights and gaps, and of what is much less than an inch. */
  steps: readonly number[];
  fineSteps: readonly number[];
}

const IN: AxisUnit = {
  name: 'in',
  size: INCH,
  steps: [0.25, 0.5, 1, 2, 5, 10],
  fineSteps: [0.1, 0.25, 0.5, 1],
};
const MM: AxisUnit = { name: 'mm', size: 1e-3, steps: [5, 10, 20, 50, 100, 200], fineSteps: [2, 5, 10, 20] };

/** The unit that leads on an axis of lengths, and the one beside it. */
export const axisUnits = (units: LengthUnits = 'inch'): { own: AxisUnit; other: AxisUnit } =>
  units === 'mm' ? { own: MM, other: IN } : { own: IN, other: MM };

/** Ticks at whole steps of a unit between two lengths, m. */
export function unitTicks(
  { size }: AxisUnit,
  steps: readonly number[],
  low: number,
  high: number,
  most: number,
  at: (metres: number) => number,
  text: (count: number) => string = String,
): Tick[] {
  const step = stepFor((high - low) / size, steps, most);
  return multiples(step, low / size, high / size).map((count) => ({
    at: at(count * size),
    text: text(Number(count.toFixed(2))),
  }));
}

/** The other unit's figures under an axis of heights: of inches at the same ticks, of millimetres at whole inches. */
export function heightsBeside(
  own: AxisUnit['name'],
  ticks: readonly number[],
  low: number,
  high: number,
  at: (metres: number) => number,
): Tick[] {
  if (own === 'in')
    return ticks.map((inch) => ({
      at: at(inch * INCH),
      text: `(${wholeText(Math.round(inch * MM_PER_INCH))})`,
    }));
  return unitTicks(IN, [1, 2, 5, 10], low, high, 5, at, (inch) => `(${inch})`);
}
