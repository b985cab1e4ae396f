import { MOMENTS } from '@tubgap/core';

/** Name of the moment that stands most often among some, each by its index in MOMENTS; of several the earliest. */
export function mostFrequentMoment(moments: Iterable<number>): string {
  const counts = new Float64Array(MOMENTS.length);
  for (const moment of moments) counts[moment]!++;
  return MOMENTS[counts.indexOf(Math.max(...counts))]!;
}
