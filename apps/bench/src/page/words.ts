import { feetText, KMH, mphText, psiText, type Rounding, shownLength, whole } from '@tubgap/units';

/** How lengths, speeds and the rest are written and typed. */
export type Units = 'inch' | 'mm';

/** A length in one piece, rounded to the side that is safe where it stands: '39 5/16 in' or '998 mm'. */
export const lengthText = (metres: number, rounding: Rounding, units: Units): string =>
  whole(shownLength(metres, rounding)[units]);

export const speedText = (speed: number, units: Units): string =>
  whole(units === 'inch' ? mphText(speed) : `${(speed / KMH).toFixed(0)} km/h`);

export const pressureText = (pressure: number, units: Units): string =>
  whole(units === 'inch' ? psiText(pressure) : `${(pressure / 1000).toFixed(0)} kPa`);

export const distanceText = (metres: number, units: Units): string =>
  whole(units === 'inch' ? feetText(metres) : `${metres.toFixed(0)} m`);
