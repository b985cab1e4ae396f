import { SIXTEENTH } from './inches.ts';
import { HEIGHT_STEPS, type TubTally, touchesByHeight } from './tally.ts';

/** A table of risk holds at most this many heights a tub. */
export const MOST_HEIGHTS = 200;

/**
 * Heights of a tub that a table of risk lists, m: those of the case, else every 1/4 in from the lowest that clears at
 * rest to the first without a touch that height could still take away.
 * @param all  the tally of all tyres together
 */
export function tableHeights(all: TubTally, given: readonly number[] | undefined): number[] {
  if (given !== undefined) return given.slice(0, MOST_HEIGHTS);
  const touches = touchesByHeight(all.steps);
  const never = all.steps[HEIGHT_STEPS]!;
  const heights: number[] = [];
  for (let n = 0; n < HEIGHT_STEPS && heights.length < MOST_HEIGHTS; n += 4) {
    heights.push(all.lowest + n * SIXTEENTH);
    if (touches[n] === never) break;
  }
  return heights;
}

/** Touches counted at a height: those at the next lower sixteenth of an inch, so never too few. */
export function touchesAt(lowest: number, steps: ArrayLike<number>, height: number): number {
  const n = Math.floor((height - lowest) / SIXTEENTH + 1e-9);
  if (n < 0) {
    let sum = 0;
    for (let k = 0; k <= HEIGHT_STEPS; k++) sum += steps[k]!;
    return sum;
  }
  return touchesByHeight(steps)[Math.min(n, HEIGHT_STEPS - 1)]!;
}
