import type { CarRuns } from '@tubgap/simulation';
import { sampleQuantile } from '@tubgap/statistics';
import { DEGREE } from '@tubgap/units';

/** Share of the runs that shows where the car is tight, and the part of their angles that is covered. */
const TIGHTEST = 0.05;
const COVERED = [0.05, 0.95] as const;
/** Degrees: ends are taken outwards to these, witnesses span at least and stand apart at most. */
const ENDS = 5;
const LEAST_SPAN = 20;
const APART = 15;

/**
 * Hub angles at which witnesses are stuck on, rad, from behind to ahead: where the tightest of a car's runs are tight,
 * over all steps, in whole degrees.
 * @param runs  drawn about the touches: of cars that are tight
 */
export function witnessAngles({ setups }: CarRuns, count: number): Float64Array {
  const gaps: number[] = [];
  const angles: number[] = [];
  for (const { gap, angle } of setups.slice(0, count)) {
    gaps.push(...gap);
    angles.push(...angle);
  }
  const limit = sampleQuantile(Float64Array.from(gaps).sort(), TIGHTEST);
  const tight = Float64Array.from(
    angles.filter((_, run) => gaps[run]! <= limit),
    (one) => one / DEGREE,
  ).sort();
  let from = Math.floor(sampleQuantile(tight, COVERED[0]) / ENDS) * ENDS;
  let to = Math.ceil(sampleQuantile(tight, COVERED[1]) / ENDS) * ENDS;
  while (to - from < LEAST_SPAN) {
    from -= ENDS;
    to += ENDS;
  }
  const spaces = Math.ceil((to - from) / APART);
  return Float64Array.from(
    { length: spaces + 1 },
    (_, k) => Math.round(from + ((to - from) * k) / spaces) * DEGREE,
  );
}
