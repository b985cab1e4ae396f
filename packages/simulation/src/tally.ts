import { SIXTEENTH } from '@tubgap/units';

/** Sixteenths of an inch a tally reaches above its lowest height: 50 in. */
export const HEIGHT_STEPS = 800;

/** Counts of events (runs, or seasons) in one tub. Whole numbers only: sums do not depend on their order. */
export interface TubTally {
  /** Lowest height, m, a multiple of 1/16 in. */
  lowest: number;
  /** steps[n]: events that touch at the lowest n heights, n = 0 … HEIGHT_STEPS; the last holds those no height helps. */
  steps: Float64Array;
  /** The same for real contact, reserve 0. */
  contactSteps: Float64Array;
  /** Events in which a leg or its end is touched at the lowest height. */
  legTouches: number;
}

/** Counts of events with one tyre, or with all of the car's tyres. */
export interface Tally {
  events: number;
  tubs: TubTally[];
  /** Events in which each hard point is touched. */
  hardTouches: number[];
}

/** A tally with nothing counted. */
export function emptyTally(lowestHeights: readonly number[], hardPoints: number): Tally {
  return {
    events: 0,
    tubs: lowestHeights.map((lowest) => ({
      lowest,
      steps: new Float64Array(HEIGHT_STEPS + 1),
      contactSteps: new Float64Array(HEIGHT_STEPS + 1),
      legTouches: 0,
    })),
    hardTouches: new Array<number>(hardPoints).fill(0),
  };
}

/**
 * Share of events that touch something at the lowest height, where it is more than half of what is accepted, so that it is
 * in the way of a pick; 0 where it is not.
 */
export function shareInTheWay(touches: number, { events }: Pick<Tally, 'events'>, accepted: number): number {
  const share = touches / events;
  return share > accepted / 2 ? share : 0;
}

/** The same of a tub's sides, which only ends above the tyre's shoulders mend: such a tub is narrow for its tyre. */
export const sidesInTheWay = (
  tally: { events: number; tubs: readonly { legTouches: number }[] },
  tub: number,
  accepted: number,
): number => shareInTheWay(tally.tubs[tub]!.legTouches, tally, accepted);

/** How many of the heights, from the lowest up, stand below a required height in m. */
export function stepsBelow(requiredHeight: number, lowest: number): number {
  const steps = Math.ceil((requiredHeight - lowest) / SIXTEENTH - 1e-9);
  return Math.min(HEIGHT_STEPS, Math.max(0, steps));
}

/** Adds the counts of `more` to `total`. */
export function addTally(total: Tally, more: Tally): void {
  total.events += more.events;
  total.tubs.forEach((tub, t) => {
    const other = more.tubs[t]!;
    for (let n = 0; n <= HEIGHT_STEPS; n++) {
      tub.steps[n]! += other.steps[n]!;
      tub.contactSteps[n]! += other.contactSteps[n]!;
    }
    tub.legTouches += other.legTouches;
  });
  more.hardTouches.forEach((touches, h) => {
    total.hardTouches[h]! += touches;
  });
}

/**
 * Touches at every height of the tally: element n is the count at lowest + n/16 in. Never rises with height.
 * @param steps  HEIGHT_STEPS + 1 counts of a TubTally
 */
export function touchesByHeight(steps: ArrayLike<number>): Float64Array {
  const touches = new Float64Array(HEIGHT_STEPS);
  let sum = 0;
  for (let n = HEIGHT_STEPS - 1; n >= 0; n--) {
    sum += steps[n + 1]!;
    touches[n] = sum;
  }
  return touches;
}

/** Percentile of the required height from plain draws, m, interpolated within a sixteenth; undefined past either end. */
export function requiredHeight(
  { steps, lowest }: TubTally,
  events: number,
  share: number,
): number | undefined {
  let below = 0;
  for (let n = 0; n <= HEIGHT_STEPS; n++) {
    const here = steps[n]!;
    if (below + here >= share * events && here > 0) {
      if (n === 0 || n === HEIGHT_STEPS) return undefined;
      return lowest + (n - 1 + (share * events - below) / here) * SIXTEENTH;
    }
    below += here;
  }
  return undefined;
}
