import type { Estimate } from './estimate.ts';

/** Standard errors by which an estimate may fall short of the pilot's. */
const MOST_SHORTFALL = 3;

/**
 * The estimate itself, or the same without trust when it lies far below what the pilot run found: then a failure
 * region that the pilot saw has been lost. Above it is no fault, as a pilot's chains can pass a region by.
 * @param pilot  of subset simulation; one that found nothing says nothing
 */
export function comparedWith(pilot: Estimate, estimate: Estimate): Estimate {
  if (!estimate.trusted || pilot.probability === 0) return estimate;
  const shortfall = Math.log(pilot.probability / estimate.probability);
  if (shortfall <= MOST_SHORTFALL * Math.hypot(estimate.cov, pilot.cov)) return estimate;
  const reason = 'it lies far below the estimate of subset simulation; a failure region was missed.';
  return { ...estimate, trusted: false, reason };
}
