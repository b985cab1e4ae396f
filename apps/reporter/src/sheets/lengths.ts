import { onTape, type Rounding, sixteenths, wholeMarks } from '@tubgap/units';

/**
 * A length of the tape in millimetres, to a tenth and rounded the same way: '993.8 mm'. Where neither way is the safe one it
 * is the length itself, not the tape's.
 */
export function mmText(metres: number, rounding: Rounding): string {
  const tenths = (rounding === 'nearest' ? metres : onTape(metres, rounding)) * 1e4;
  return `${(wholeMarks(tenths, rounding) / 10).toFixed(1)} mm`;
}

/** A limit to pass: on the tape rounded up, in millimetres as it is, to the next tenth: '3 1/4 in (82.1 mm)'. */
export const limitText = (metres: number): string =>
  `${sixteenths(metres, 'up')} (${(wholeMarks(metres * 1e4, 'up') / 10).toFixed(1)} mm)`;

/** Inches with millimetres beside them: '39 1/8 in (993.8 mm)'. */
export const bothText = (metres: number, rounding: Rounding): string =>
  `${sixteenths(metres, rounding)} (${mmText(metres, rounding)})`;

/** A tolerance, never rounded up; 'none' where nothing is left of it. */
export function toleranceText(metres: number): string {
  const kept = onTape(metres, 'down');
  return kept <= 0 ? 'none' : sixteenths(kept, 'down');
}

/** Where something stands along the car: '1/2 in ahead of the axle centre'. */
export function alongText(metres: number): string {
  const place = onTape(metres, 'nearest');
  if (place === 0) return 'straight above the axle centre';
  return `${bothText(Math.abs(metres), 'nearest')} ${place > 0 ? 'ahead of' : 'behind'} the axle centre`;
}
