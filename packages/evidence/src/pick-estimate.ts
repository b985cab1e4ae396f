import type { CarHeights } from './car-heights.ts';
import type { CarSpace } from './car-space.ts';

/**
 * Lowest top height of one tyre in one tub for an accepted run risk, from cars alone: each car's height in a middling
 * run, and how far single runs depart from it. Quicker than the simulation and good for differences between cars of
 * different belief; not the pick itself.
 */
export interface PickEstimate {
  /** Required height of each car in a middling run, m. */
  heights: Float64Array;
  /** Lowest height for the accepted risk, m. @param weights  of the cars; all alike when left out */
  of: (weights?: Float64Array) => number;
}

/** Departures of single runs from the car's middling one, m, rising. */
export function runDepartures(
  heights: CarHeights,
  whole: CarSpace,
  cars: readonly Float64Array[],
  seed: number,
): Float64Array {
  const middling = heights.middling(whole, cars);
  return heights
    .drawn(whole, cars, seed)
    .map((height, n) => height - middling[n]!)
    .filter(Number.isFinite)
    .sort();
}

/** Share of the departures above a value, straight between them. */
export function shareAbove(sorted: Float64Array, value: number): number {
  const n = sorted.length;
  if (value <= sorted[0]!) return 1;
  if (value >= sorted[n - 1]!) return 0;
  let low = 0;
  let high = n - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (sorted[middle]! <= value) low = middle;
    else high = middle;
  }
  const part = (value - sorted[low]!) / (sorted[high]! - sorted[low]! || 1);
  return 1 - (low + part + 0.5) / n;
}

/** Opens the estimate for some cars. */
export function pickEstimate(
  heights: Float64Array,
  departures: Float64Array,
  accepted: number,
): PickEstimate {
  const spread = departures[departures.length - 1]! - departures[0]!;
  const sound = heights.filter(Number.isFinite);
  const lowest = Math.min(...sound) + departures[0]!;
  const highest = Math.max(...sound) + spread;
  return {
    heights,
    of: (weights) => {
      let total = 0;
      for (let i = 0; i < heights.length; i++) total += weights?.[i] ?? 1;
      let low = lowest;
      let high = highest;
      for (let step = 0; step < 15; step++) {
        const height = 0.5 * (low + high);
        let risk = 0;
        for (let i = 0; i < heights.length; i++) {
          const weight = weights?.[i] ?? 1;
          if (weight > 0) risk += weight * shareAbove(departures, height - heights[i]!);
        }
        if (risk / total > accepted) low = height;
        else high = height;
      }
      return high;
    },
  };
}
