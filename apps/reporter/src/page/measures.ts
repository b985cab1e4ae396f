import { feetText, INCH, isOnTape, oneIn, onTape, psiText, sixteenths, wholeMarks } from '@tubgap/units';

/** A figure with its unit that no line break parts. */
const whole = (text: string): string => text.replaceAll(' ', '\u00a0');

/** '39 3/8 in', in one piece. */
export const inches = (metres: number, rounding: 'up' | 'down'): string =>
  whole(sixteenths(metres, rounding));

/** '1 in 2,000', in one piece. */
export const chance = (value: number): string => whole(oneIn(value));

/** '994 mm': of the sixteenths that stand beside it, rounded the same safe way. */
export function millimetres(metres: number, rounding: 'up' | 'down'): string {
  return `${wholeMarks(onTape(metres, rounding) * 1000, rounding)}\u00a0mm`;
}

/** '39 1/8 in (994 mm)' */
export const inchesAndMm = (metres: number, rounding: 'up' | 'down'): string =>
  `${inches(metres, rounding)} (${millimetres(metres, rounding)})`;

/** '1/2 in (13 mm)' or '16.05 in (408 mm)': a place to measure from, which no rounding makes safer. */
export function measuredText(metres: number): string {
  const text = isOnTape(metres) ? inches(metres, 'down') : `${Number((metres / INCH).toFixed(2))}\u00a0in`;
  return `${text} (${Math.round(metres * 1000)}\u00a0mm)`;
}

/** '1/2 in (13 mm) ahead of the axle', or 'over the axle'. */
export function centrePlace(ahead: number): string {
  if (Math.abs(ahead) < 1e-4) return 'over the axle';
  return `${measuredText(Math.abs(ahead))} ${ahead > 0 ? 'ahead of' : 'behind'} the axle`;
}

/** '6.0 psi (41 kPa)' */
export const pressureText = (pascals: number): string =>
  `${psiText(pascals)} (${(pascals / 1000).toFixed(0)} kPa)`;

/** '1,320 ft (402 m)' */
export const distanceText = (metres: number): string => `${feetText(metres)} (${metres.toFixed(0)} m)`;

export const percent = (share: number): string =>
  `${share < 0.01 && share > 0 ? (share * 100).toPrecision(1) : (share * 100).toFixed(0)}\u00a0%`;
