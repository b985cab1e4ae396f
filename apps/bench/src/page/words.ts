import {
  feetText,
  hundredths,
  INCH,
  isOnTape,
  KMH,
  mphText,
  oneIn,
  psiText,
  type Rounding,
  SIXTEENTH,
  tapeText,
  wholeMarks,
} from '@tubgap/units';

/** How lengths, speeds and the rest are written and typed. */
export type Units = 'inch' | 'mm';

/** A figure with its unit that no line break parts. */
const whole = (text: string): string => text.replaceAll(' ', '\u00a0');

/** A length in the marks of a tape, sixteenths of an inch or millimetres. */
function tapeLength(metres: number, rounding: Rounding, units: Units): string {
  const marks = wholeMarks(units === 'inch' ? metres / SIXTEENTH : metres * 1000, rounding);
  const size = Math.abs(marks);
  return whole(`${marks < 0 ? '−' : ''}${units === 'inch' ? `${tapeText(size)} in` : `${size} mm`}`);
}

/** A length that is left, rounded down: '39 5/16 in' or '998 mm'. */
export const lengthText = (metres: number, units: Units): string => tapeLength(metres, 'down', units);

/** A height or a gap that must be there, rounded up, as on the sheets: '997 mm' for a top of 996.95. */
export const leastText = (metres: number, units: Units): string => tapeLength(metres, 'up', units);

/** A length as it is given, not rounded to a tape's marks unless it lies on one: '1/2 in', '16.3 in', '12.7 mm'. */
export function givenText(metres: number, units: Units): string {
  if (units === 'inch' && isOnTape(metres)) return lengthText(metres, units);
  return whole(
    units === 'inch'
      ? `${Number((metres / INCH).toFixed(2))} in`
      : `${Number((metres * 1000).toFixed(1))} mm`,
  );
}

/** A small length with its own decimals: '0.43 in' or '11.0 mm'. */
export const fineText = (metres: number, units: Units): string =>
  whole(units === 'inch' ? hundredths(metres) : `${(metres * 1000).toFixed(1)} mm`);

export const speedText = (speed: number, units: Units): string =>
  whole(units === 'inch' ? mphText(speed) : `${(speed / KMH).toFixed(0)} km/h`);

export const pressureText = (pressure: number, units: Units): string =>
  whole(units === 'inch' ? psiText(pressure) : `${(pressure / 1000).toFixed(0)} kPa`);

export const distanceText = (metres: number, units: Units): string =>
  whole(units === 'inch' ? feetText(metres) : `${metres.toFixed(0)} m`);

/** A chance as '1 in N'. */
export const chanceText = (chance: number): string => whole(oneIn(chance));

/** Place of the tub's centre: '1/4 in ahead of the axle'. */
export function centreText(ahead: number, units: Units): string {
  if (Math.abs(ahead) < 1e-5) return 'over the axle';
  return `${givenText(Math.abs(ahead), units)} ${ahead > 0 ? 'ahead of' : 'behind'} the axle`;
}
