import { feetText, percentText, psiText, type Rounding, shownLength, whole } from '@tubgap/units';
import { unbroken } from '@tubgap/wording';

/** '39 3/8 in', in one piece. */
export const inches = (metres: number, rounding: Rounding): string =>
  whole(shownLength(metres, rounding).inch);

/** '994 mm', in one piece. */
export const millimetres = (metres: number, rounding: Rounding): string =>
  whole(shownLength(metres, rounding).mm);

/** '39 1/8 in (994 mm)' */
export const inchesAndMm = (metres: number, rounding: Rounding): string =>
  unbroken(shownLength(metres, rounding).both);

/** '6.0 psi (41 kPa)' */
export const pressureText = (pascals: number): string =>
  `${psiText(pascals)} (${(pascals / 1000).toFixed(0)} kPa)`;

/** '1,320 ft (402 m)' */
export const distanceText = (metres: number): string => `${feetText(metres)} (${metres.toFixed(0)} m)`;

/** '72 %', in one piece. */
export const percent = (share: number): string => whole(percentText(share));
