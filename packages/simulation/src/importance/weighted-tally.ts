import { SEEN_FROM } from '@tubgap/statistics';
import { HEIGHT_STEPS } from '../tally.ts';

/** Sums over weighted events that touch at the lowest n heights, n = 0 … HEIGHT_STEPS, in one tub. */
export interface WeightedSteps {
  weight: Float64Array;
  square: Float64Array;
  /** The same over those of which weighted draws may speak: they lie where the mixture leads to, and weigh little. */
  seen: { weight: Float64Array; square: Float64Array };
}

/** Weighted events with one tyre, or with all. */
export interface WeightedTally {
  events: number;
  /** Beside the sums by steps the weight of the events in which a leg or its end is touched at the lowest height. */
  tubs: { steps: WeightedSteps; contact: WeightedSteps; legs: number }[];
  /** Weight of the events in which each hard point is touched. */
  hardPoints: number[];
}

const emptySums = () => ({
  weight: new Float64Array(HEIGHT_STEPS + 1),
  square: new Float64Array(HEIGHT_STEPS + 1),
});

export const emptySteps = (): WeightedSteps => ({ ...emptySums(), seen: emptySums() });

export const emptyWeighted = (tubs: number, hardPoints = 0): WeightedTally => ({
  events: 0,
  tubs: Array.from({ length: tubs }, () => ({ steps: emptySteps(), contact: emptySteps(), legs: 0 })),
  hardPoints: new Array<number>(hardPoints).fill(0),
});

export function addWeight(steps: WeightedSteps, n: number, weight: number): void {
  steps.weight[n]! += weight;
  steps.square[n]! += weight * weight;
  if (weight > 1 / SEEN_FROM) return;
  steps.seen.weight[n]! += weight;
  steps.seen.square[n]! += weight * weight;
}

function addSteps(to: WeightedSteps, from: WeightedSteps): void {
  for (let n = 0; n <= HEIGHT_STEPS; n++) {
    to.weight[n]! += from.weight[n]!;
    to.square[n]! += from.square[n]!;
    to.seen.weight[n]! += from.seen.weight[n]!;
    to.seen.square[n]! += from.seen.square[n]!;
  }
}

/** Adds the sums of more events. Sums of fractions depend on their order: they are added in the order of their draws. */
export function addWeighted(total: WeightedTally, more: WeightedTally): void {
  total.events += more.events;
  total.tubs.forEach((tub, t) => {
    addSteps(tub.steps, more.tubs[t]!.steps);
    addSteps(tub.contact, more.tubs[t]!.contact);
    tub.legs += more.tubs[t]!.legs;
  });
  more.hardPoints.forEach((weight, h) => {
    total.hardPoints[h]! += weight;
  });
}

/** Sums of the touches at every height, from the sums by steps: element n belongs to lowest + n/16 in. */
export interface WeightByHeight {
  events: number;
  weight: Float64Array;
  square: Float64Array;
}

export function weightByHeight(events: number, steps: WeightedSteps): WeightByHeight {
  const found: WeightByHeight = {
    events,
    weight: new Float64Array(HEIGHT_STEPS),
    square: new Float64Array(HEIGHT_STEPS),
  };
  let weight = 0;
  let square = 0;
  for (let n = HEIGHT_STEPS - 1; n >= 0; n--) {
    weight += steps.weight[n + 1]!;
    square += steps.square[n + 1]!;
    found.weight[n] = weight;
    found.square[n] = square;
  }
  return found;
}
