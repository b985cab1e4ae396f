import { wholeText } from './chance.ts';
import { FOOT, INCH, MPH, PSI } from './factors.ts';
import { formatQuantity, type QuantityKind } from './quantity.ts';

/** Inches to two decimals: '0.43 in'. */
export const hundredths = (metres: number): string => `${(metres / INCH).toFixed(2)} in`;

/** A speed to the nearest mile an hour: '224 mph'. */
export const mphText = (speed: number): string => `${(speed / MPH).toFixed(0)} mph`;

/** A distance to the nearest foot: '1,320 ft'. */
export const feetText = (metres: number): string => `${wholeText(Math.round(metres / FOOT))} ft`;

/** A gauge pressure as a shop sets it: '6.0 psi'. */
export const psiText = (pascals: number): string => `${(pascals / PSI).toFixed(1)} psi`;

/** A quantity in the shop's unit of its kind, or in another, thousands parted: '2,480 lb'. */
export const shownQuantity = (value: number, kind: QuantityKind, unitName?: string): string =>
  formatQuantity(value, kind, unitName).replace(/^\d{4,}/, (digits) => wholeText(Number(digits)));
