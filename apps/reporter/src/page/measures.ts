import { percentText, type Rounding, whole } from '@tubgap/units';
import { unbroken } from '@tubgap/wording';
import { figuresOf, type OfCase } from '../figures-of.ts';

/** Figures of a page, each in one piece where it may not be parted at a line's end. */
interface Measures {
  /** '39 3/8 in', in the units of the case, and in the others. */
  length: (metres: number, rounding: Rounding) => string;
  other: (metres: number, rounding: Rounding) => string;
  /** '39 1/8 in (994 mm)' */
  both: (metres: number, rounding: Rounding) => string;
  /** '6.0 psi (41 kPa)' */
  pressure: (pascals: number) => string;
  /** '1,320 ft (402 m)' */
  distance: (metres: number) => string;
}

/** The figures of a page about a result. */
export function measuresOf(result: OfCase): Measures {
  const { units, length, other, both, pressureText, distanceText } = figuresOf(result);
  const metric = figuresOf({ case: { units: 'mm' } });
  const inch = figuresOf({ case: {} });
  return {
    length: (metres, rounding) => whole(length(metres, rounding)),
    other: (metres, rounding) => whole(other(metres, rounding)),
    both: (metres, rounding) => unbroken(both(metres, rounding)),
    pressure: (pascals) =>
      `${pressureText(pascals)} (${units === 'mm' ? inch.pressureText(pascals) : `${(pascals / 1000).toFixed(0)} kPa`})`,
    distance: (metres) =>
      `${distanceText(metres)} (${units === 'mm' ? inch.distanceText(metres) : metric.distanceText(metres)})`,
  };
}

/** '72 %', in one piece. */
export const percent = (share: number): string => whole(percentText(share));
