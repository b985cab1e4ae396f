import { HEIGHT_STEPS } from '../tally.ts';

/** Sums over weighted events that touch at the lowest n heights, n = 0 … HEIGHT_STEPS, in one tub. */
export interface WeightedSteps {
  weight: Float64Array;
  square: Float64Array;
  greatest: Float64Array;
}

/** Weighted events with one tyre, or with all. */
export interface WeightedTally {
  events: number;
  tubs: { steps: WeightedSteps; contact: WeightedSteps }[];
}

const emptySteps = (): WeightedSteps => ({
  weight: new Float64Array(HEIGHT_STEPS + 1),
  square: new Float64Array(HEIGHT_STEPS + 1),
  greatest: new Float64Array(HEIGHT_STEPS + 1),
});

export const emptyWeighted = (tubs: number): WeightedTally => ({
  events: 0,
  tubs: Array.from({ length: tubs }, () => ({ steps: emptySteps(), contact: emptySteps() })),
});

export function addWeight(steps: WeightedSteps, n: number, weight: number): void {
  steps.weight[n]! += weight;
  steps.square[n]! += weight * weight;
  if (weight > steps.greatest[n]!) steps.greatest[n] = weight;
}

/** Adds one block's sums. Sums of fractions depend on their order: blocks are added in the order of their numbers. */
export function addWeighted(total: WeightedTally, more: WeightedTally): void {
  total.events += more.events;
  total.tubs.forEach((tub, t) => {
    for (const part of ['steps', 'contact'] as const) {
      const to = tub[part];
      const from = more.tubs[t]![part];
      for (let n = 0; n <= HEIGHT_STEPS; n++) {
        to.weight[n]! += from.weight[n]!;
        to.square[n]! += from.square[n]!;
        if (from.greatest[n]! > to.greatest[n]!) to.greatest[n] = from.greatest[n]!;
      }
    }
  });
}

/** Sums of the touches at every height, from the sums by steps: element n belongs to lowest + n/16 in. */
export interface WeightByHeight {
  events: number;
  weight: Float64Array;
  square: Float64Array;
  greatest: Float64Array;
}

export function weightByHeight(events: number, steps: WeightedSteps): WeightByHeight {
  const found: WeightByHeight = {
    events,
    weight: new Float64Array(HEIGHT_STEPS),
    square: new Float64Array(HEIGHT_STEPS),
    greatest: new Float64Array(HEIGHT_STEPS),
  };
  let weight = 0;
  let square = 0;
  let greatest = 0;
  for (let n = HEIGHT_STEPS - 1; n >= 0; n--) {
    weight += steps.weight[n + 1]!;
    square += steps.square[n + 1]!;
    greatest = Math.max(greatest, steps.greatest[n + 1]!);
    found.weight[n] = weight;
    found.square[n] = square;
    found.greatest[n] = greatest;
  }
  return found;
}
