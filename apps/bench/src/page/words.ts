import { INCH } from '@tubgap/simulation';

/** How lengths, speeds and the rest are written and typed. */
export type Units = 'inch' | 'mm';

const SLACK = 1e-6;
const grouped = new Intl.NumberFormat('en-GB');
/** A figure with its unit that no line break parts. */
const whole = (text: string): string => text.replaceAll(' ', '\u00a0');

/** Sixteenths of an inch as a tape shows them: '39 5/16'. */
function tapeText(count: number): string {
  let above = Math.abs(count) % 16;
  let below = 16;
  while (above > 0 && above % 2 === 0) {
    above /= 2;
    below /= 2;
  }
  const inches = Math.floor(Math.abs(count) / 16);
  const fraction = above === 0 ? '' : `${above}/${below}`;
  const parts =
    inches === 0 && fraction !== '' ? fraction : [String(inches), fraction].filter(Boolean).join(' ');
  return `${count < 0 ? '−' : ''}${parts}`;
}

/** Marks of a tape in a length, sixteenths of an inch or millimetres. */
const marksIn = (metres: number, units: Units): number =>
  units === 'inch' ? (metres / INCH) * 16 : metres * 1000;

const marksText = (marks: number, units: Units): string =>
  whole(units === 'inch' ? `${tapeText(marks)} in` : `${marks < 0 ? '−' : ''}${Math.abs(marks)} mm`);

/** A length that is left, rounded down: '39 5/16 in' or '998 mm'. */
export const lengthText = (metres: number, units: Units): string =>
  marksText(Math.floor(marksIn(metres, units) + SLACK), units);

/** A height or a gap that must be there, rounded up, as on the sheets: '997 mm' for a top of 996.95. */
export const leastText = (metres: number, units: Units): string =>
  marksText(Math.ceil(marksIn(metres, units) - SLACK), units);

/** A length as it is given, not rounded to a tape's marks unless it lies on one: '1/2 in', '16.3 in', '12.7 mm'. */
export function givenText(metres: number, units: Units): string {
  const count = (metres / INCH) * 16;
  if (units === 'inch' && Math.abs(count - Math.round(count)) < SLACK) return lengthText(metres, units);
  return whole(
    units === 'inch'
      ? `${Number((metres / INCH).toFixed(2))} in`
      : `${Number((metres * 1000).toFixed(1))} mm`,
  );
}

/** A small length with its own decimals: '0.43 in' or '11.0 mm'. */
export const fineText = (metres: number, units: Units): string =>
  whole(units === 'inch' ? `${(metres / INCH).toFixed(2)} in` : `${(metres * 1000).toFixed(1)} mm`);

export const speedText = (speed: number, units: Units): string =>
  whole(units === 'inch' ? `${(speed / 0.44704).toFixed(0)} mph` : `${(speed * 3.6).toFixed(0)} km/h`);

export const pressureText = (pressure: number, units: Units): string =>
  whole(
    units === 'inch'
      ? `${(pressure / 6894.757293168361).toFixed(1)} psi`
      : `${(pressure / 1000).toFixed(0)} kPa`,
  );

export const distanceText = (metres: number, units: Units): string =>
  whole(units === 'inch' ? `${grouped.format(Math.round(metres / 0.3048))} ft` : `${metres.toFixed(0)} m`);

export const wholeText = (value: number): string => grouped.format(value);

/** The N of a chance of 1 in N, cut to two or three figures, so that it is never said smaller than it is. */
export function outOf(chance: number): string {
  const n = 1 / chance;
  const digits = 10 ** Math.max(0, Math.floor(Math.log10(n)) - (n < 1000 ? 2 : 1));
  return wholeText(Math.max(1, Math.floor(n / digits + 1e-9) * digits));
}

/** A chance as '1 in N'. */
export const oneIn = (chance: number): string => whole(`1 in ${outOf(chance)}`);

/** Heading of a gap at a hub angle in degrees: '15° ahead'. */
export const angleHeading = (degrees: number): string =>
  degrees === 0 ? 'straight up' : `${Math.abs(degrees)}° ${degrees > 0 ? 'ahead' : 'behind'}`;

/** Hub angle in words: '35° ahead of the top'. */
export function angleText(radians: number): string {
  const degrees = Math.round((radians * 180) / Math.PI);
  if (degrees === 0) return 'straight up';
  return `${Math.abs(degrees)}° ${degrees > 0 ? 'ahead of' : 'behind'} the top`;
}

/** Place of the tub's centre: '1/4 in ahead of the axle'. */
export function centreText(ahead: number, units: Units): string {
  if (Math.abs(ahead) < 1e-5) return 'over the axle';
  return `${givenText(Math.abs(ahead), units)} ${ahead > 0 ? 'ahead of' : 'behind'} the axle`;
}
