import { sixteenths } from '@tubgap/wording';

const INCH = 0.0254;
/** Rounding of the last digits moves no tenth of a millimetre. */
const SLACK = 1e-6;

export type Rounding = 'up' | 'down' | 'nearest';

/** A length on the sixteenths of a tape, m: up, down, or the nearest where neither way is the safe one. */
export function onTape(metres: number, rounding: Rounding): number {
  const count = (metres / INCH) * 16;
  if (rounding === 'up') return (Math.ceil(count - SLACK) / 16) * INCH;
  if (rounding === 'down') return (Math.floor(count + SLACK) / 16) * INCH;
  return (Math.round(count) / 16) * INCH;
}

/** Inches and sixteenths of a length that is rounded first: '39 1/8 in'. */
export const inchText = (metres: number, rounding: Rounding): string =>
  sixteenths(onTape(metres, rounding), 'down');

/**
 * The same length in millimetres, to a tenth and rounded the same way: '993.8 mm'. Where neither way is the safe one it
 * is the length itself, not the tape's.
 */
export function mmText(metres: number, rounding: Rounding): string {
  const tenths = (rounding === 'nearest' ? metres : onTape(metres, rounding)) * 1e4;
  const whole =
    rounding === 'up'
      ? Math.ceil(tenths - SLACK)
      : rounding === 'down'
        ? Math.floor(tenths + SLACK)
        : Math.round(tenths);
  return `${(whole / 10).toFixed(1)} mm`;
}

/** A limit to pass: on the tape rounded up, in millimetres as it is, to the next tenth: '3 1/4 in (82.1 mm)'. */
export const limitText = (metres: number): string =>
  `${inchText(metres, 'up')} (${(Math.ceil(metres * 1e4 - SLACK) / 10).toFixed(1)} mm)`;

/** Inches with millimetres beside them: '39 1/8 in (993.8 mm)'. */
export const bothText = (metres: number, rounding: Rounding): string =>
  `${inchText(metres, rounding)} (${mmText(metres, rounding)})`;

/** A tolerance, never rounded up; 'none' where nothing is left of it. */
export function toleranceText(metres: number): string {
  const kept = onTape(metres, 'down');
  return kept <= 0 ? 'none' : inchText(kept, 'down');
}

/** Where something stands along the car: '1/2 in ahead of the axle centre'. */
export function alongText(metres: number): string {
  const place = onTape(metres, 'nearest');
  if (place === 0) return 'straight above the axle centre';
  return `${bothText(Math.abs(metres), 'nearest')} ${place > 0 ? 'ahead of' : 'behind'} the axle centre`;
}
