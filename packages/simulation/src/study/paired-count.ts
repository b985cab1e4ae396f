import { normalQuantile } from '@tubgap/statistics';

/** Difference of two probabilities with its 95 % interval. */
export interface Difference {
  estimate: number;
  low: number;
  high: number;
}

/**
 * Difference of two probabilities that are counted in the same events, with its adjusted Wald interval: one event more
 * is put on either side, so that no disagreement in few events is not taken for none at all.
 * Source: D. G. Bonett and R. M. Price (2012), J. Educ. Behav. Stat. 37:479 (from memory).
 * @param gained,lost  events in which the first happens without the second, and the other way round
 */
export function pairedCount(gained: number, lost: number, events: number): Difference {
  const n = events + 2;
  const up = (gained + 1) / n;
  const down = (lost + 1) / n;
  const half = normalQuantile(0.975) * Math.sqrt((up + down - (up - down) ** 2) / n);
  return { estimate: (gained - lost) / events, low: up - down - half, high: up - down + half };
}
