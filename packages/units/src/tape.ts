import { wholeText } from './chance.ts';
import { INCH, SIXTEENTH } from './factors.ts';

/** A height is rounded up, a gap that is there down, a place to the nearest: the safe way is the caller's to know. */
export type Rounding = 'up' | 'down' | 'nearest';

/** A length within this share of a mark is on that mark: rounding of the last digits moves nothing. */
const SLACK = 1e-6;

/** A count of marks, of whatever tape, made whole. */
export function wholeMarks(count: number, rounding: Rounding): number {
  if (rounding === 'up') return Math.ceil(count - SLACK);
  if (rounding === 'down') return Math.floor(count + SLACK);
  return Math.round(count);
}

/** Whole sixteenths of an inch in a length, m. */
const sixteenthsIn = (metres: number, rounding: Rounding): number => wholeMarks(metres / SIXTEENTH, rounding);

/** A length on the marks of a tape, m: sixteenths of an inch, or whole millimetres. */
export const onTape = (metres: number, rounding: Rounding, units: 'inch' | 'mm' = 'inch'): number =>
  units === 'inch'
    ? (sixteenthsIn(metres, rounding) / 16) * INCH
    : wholeMarks(metres * 1000, rounding) / 1000;

/** Whether a length, m, is a whole number of sixteenths but for the last digits. */
export function isOnTape(metres: number): boolean {
  const count = metres / SIXTEENTH;
  return Math.abs(count - Math.round(count)) < SLACK;
}

/** So many sixteenths, none or more, as a tape shows them, in lowest terms: '39 3/8', '1/2', '0'. */
export function tapeText(sixteenths: number): string {
  let above = sixteenths % 16;
  let below = 16;
  while (above > 0 && above % 2 === 0) {
    above /= 2;
    below /= 2;
  }
  const inches = wholeText(Math.floor(sixteenths / 16));
  if (above === 0) return inches;
  return inches === '0' ? `${above}/${below}` : `${inches} ${above}/${below}`;
}

/** A number's own words with the true minus, U+2212, where it is below 0. */
const signed = (value: number, words: (size: number) => string): string =>
  `${value < 0 ? '−' : ''}${words(Math.abs(value))}`;

/** Metres as inches and sixteenths: '39 3/8 in'. */
export const sixteenths = (metres: number, rounding: Rounding): string =>
  `${signed(sixteenthsIn(metres, rounding), tapeText)} in`;

/** A length on show, rounded once and to one side: its sixteenths and its whole millimetres, each of the exact value. */
export interface ShownLength {
  /** '39 1/4 in' */
  inch: string;
  /** '997 mm' */
  mm: string;
  /** '39 1/4 in (997 mm)' */
  both: string;
  /** '997 mm (39 1/4 in)' */
  'mm first': string;
}

/** How a length, m, is shown, rounded to the side that is safe where it stands. */
export function shownLength(metres: number, rounding: Rounding): ShownLength {
  const inch = sixteenths(metres, rounding);
  const mm = `${signed(wholeMarks(metres * 1000, rounding), wholeText)} mm`;
  return { inch, mm, both: `${inch} (${mm})`, 'mm first': `${mm} (${inch})` };
}

/** A change of a length, m, to the nearest mark and with its sign: '+3/16 in', '−5 mm', '0' where a tape shows none. */
export function shownChange(metres: number): Pick<ShownLength, 'inch' | 'mm'> {
  const marked = (count: number, words: (size: number) => string, unit: string): string =>
    count === 0 ? '0' : `${count > 0 ? '+' : '−'}${words(Math.abs(count))} ${unit}`;
  return {
    inch: marked(sixteenthsIn(metres, 'nearest'), tapeText, 'in'),
    mm: marked(wholeMarks(metres * 1000, 'nearest'), wholeText, 'mm'),
  };
}

/** A gap that is left, or that there is none. */
export const gapWords = (gap: number, units: keyof ShownLength = 'inch'): string =>
  gap > 0 ? shownLength(gap, 'down')[units] : 'none';

/** A place along the car as the units that lead show it: which side of the axle, none: over it. */
const sideOf = (ahead: number, units: keyof ShownLength): number =>
  Math.sign(units === 'inch' || units === 'both' ? onTape(ahead, 'nearest') : Math.round(ahead * 1000));

/** Where something stands along the car, m ahead of the axle: '1/4 in ahead of the axle'. Neither way is safer. */
export function alongText(ahead: number, units: keyof ShownLength): string {
  const side = sideOf(ahead, units);
  if (side === 0) return 'over the axle';
  return `${shownLength(Math.abs(ahead), 'nearest')[units]} ${side > 0 ? 'ahead of' : 'behind'} the axle`;
}

/** The same beside a drawing's axle: '1/4 in ahead'. */
export function offsetText(ahead: number, units: keyof ShownLength): string {
  const side = sideOf(ahead, units);
  if (side === 0) return 'over the axle';
  return `${shownLength(Math.abs(ahead), 'nearest')[units]} ${side > 0 ? 'ahead' : 'behind'}`;
}

/**
 * A change of a height that is needed, m, in words: '1/8 in more', '5 mm less'. More is rounded up and less down, so that
 * nobody cuts by what he has not got; undefined where a tape shows nothing: under half of a mark, or less than one to be
 * taken off.
 */
export function changeText(metres: number, units: 'inch' | 'mm'): string | undefined {
  const mark = units === 'inch' ? SIXTEENTH : 1e-3;
  if (Math.abs(metres) < mark / 2) return undefined;
  const rounding = metres > 0 ? 'up' : 'down';
  if (wholeMarks(Math.abs(metres) / mark, rounding) === 0) return undefined;
  return `${shownLength(Math.abs(metres), rounding)[units]} ${metres > 0 ? 'more' : 'less'}`;
}

/** The least multiple of `step` that is not below `value`; a rounding error of the last digits does not add a step. */
export function ceilTo(value: number, step: number): number {
  return Math.ceil(value / step - 1e-9) * step;
}
