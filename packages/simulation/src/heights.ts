import { INCH, SIXTEENTH } from '@tubgap/units';
import { HEIGHT_STEPS, type TubTally, touchesByHeight } from './tally.ts';

/** A table of risk holds at most this many heights a tub. */
export const MOST_HEIGHTS = 200;

/**
 * Heights of a tub that a table of risk lists, m: those of the case, else every 1/4 in from the lowest in question to the
 * first without a touch that height could still take away.
 * @param all  the tally of all tyres together
 * @param lowest  m, a multiple of 1/4 in
 */
export function tableHeights(
  all: TubTally,
  given: readonly number[] | undefined,
  lowest: number = all.lowest,
): number[] {
  if (given !== undefined) return given.slice(0, MOST_HEIGHTS);
  const touches = touchesByHeight(all.steps);
  const never = all.steps[HEIGHT_STEPS]!;
  const heights: number[] = [];
  const first = stepAt(all.lowest, lowest);
  for (let n = first; n < HEIGHT_STEPS && heights.length < MOST_HEIGHTS; n += 4) {
    heights.push(all.lowest + n * SIXTEENTH);
    if (touches[n] === never) break;
  }
  return heights;
}

/**
 * Those of a table's heights at which gaps are told, m: those of the case, else whole inches. Between these the gap to a
 * crown changes as the height does, and to a side less.
 */
export const gapHeights = (heights: readonly number[], given: readonly number[] | undefined): number[] =>
  heights.filter(
    (height) => given !== undefined || Math.abs(height / INCH - Math.round(height / INCH)) < 1e-6,
  );

/** Step of a tally for a height, the next lower sixteenth of an inch: so its risk is never said too small. */
export function stepAt(lowest: number, height: number): number {
  const step = Math.floor((height - lowest) / SIXTEENTH + 1e-9);
  return Math.min(HEIGHT_STEPS - 1, Math.max(0, step));
}

/** Height of a step of a tally, m: a whole number of sixteenths, the same from whatever lowest height it is counted. */
export const heightOf = (lowest: number, step: number): number =>
  (Math.round(lowest / SIXTEENTH) + step) * SIXTEENTH;
