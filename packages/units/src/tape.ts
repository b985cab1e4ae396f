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

/** A length on the sixteenths of a tape, m. */
export const onTape = (metres: number, rounding: Rounding): number =>
  (sixteenthsIn(metres, rounding) / 16) * INCH;

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
  const inches = Math.floor(sixteenths / 16);
  if (above === 0) return String(inches);
  return inches === 0 ? `${above}/${below}` : `${inches} ${above}/${below}`;
}

/** Metres as inches and sixteenths: '39 3/8 in'. */
export function sixteenths(metres: number, rounding: Rounding): string {
  const count = sixteenthsIn(metres, rounding);
  return `${count < 0 ? '-' : ''}${tapeText(Math.abs(count))} in`;
}

/**
 * A change of a height that is needed, m, in words: '1/8 in more', '1/16 in less'. More is rounded up and less down, so
 * that nobody cuts by what he has not got; undefined where a tape shows nothing: under half of a sixteenth, or less than
 * one to be taken off.
 */
export function changeOnTape(metres: number): string | undefined {
  if (Math.abs(metres) < SIXTEENTH / 2) return undefined;
  const count = sixteenthsIn(Math.abs(metres), metres > 0 ? 'up' : 'down');
  return count === 0 ? undefined : `${tapeText(count)} in ${metres > 0 ? 'more' : 'less'}`;
}

/** The least multiple of `step` that is not below `value`; a rounding error of the last digits does not add a step. */
export function ceilTo(value: number, step: number): number {
  return Math.ceil(value / step - 1e-9) * step;
}
