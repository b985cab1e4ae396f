import { countedProbability, exceedance, type Probability } from '@tubgap/statistics';
import type { WeightedSteps } from './importance/weighted-tally.ts';

/** A probability of touching with its 95 % interval, and how it was found. */
export interface Risk {
  /** Plain events that touch, of all plain events. */
  touches: number;
  events: number;
  estimate: number;
  low: number;
  high: number;
  /**
   * counted: plain events, Clopper–Pearson interval. weighted: draws moved to where touches are, with their weights,
   * and plain events for what no centre leads to.
   */
  method: Probability['method'];
  /** Coefficient of variation of the estimate; null when nothing touches. */
  cov: number | null;
  /** Touching events of equal weight that would say as much. */
  effectiveDraws: number;
}

/** A probability as the risk of touching. */
export const riskOf = (found: Probability): Risk => ({
  touches: found.hits,
  events: found.draws,
  estimate: found.estimate,
  low: found.low,
  high: found.high,
  method: found.method,
  cov: found.cov,
  effectiveDraws: found.effectiveDraws,
});

/** Risk by plain counting. */
export const countedRisk = (touches: number, events: number): Risk =>
  riskOf(countedProbability(touches, events));

/** Plain events by how many heights they touch at, from the lowest up. */
export interface PlainSteps {
  events: number;
  /** Counts of all, and of those of them that lie where the mixture does not lead to. */
  all: ArrayLike<number>;
  unseen: ArrayLike<number>;
}

/** Of weighted events by steps the sums over those that may speak. */
export type SeenSteps = Pick<WeightedSteps, 'seen'>;

/** Risk at every height of one tub: element n of the tally's heights. Neither estimate nor bounds rise with height. */
export type RiskByHeight = (step: number) => Risk;

/**
 * Risk by height from plain events and, where these hold too few touches, from weighted ones beside them.
 * @param weighted  undefined when there are none
 */
export function riskByHeight(
  plain: PlainSteps,
  weighted?: { events: number; steps: SeenSteps },
): RiskByHeight {
  const probability = exceedance({
    plain: { draws: plain.events, hits: plain.all, unseen: plain.unseen },
    weighted: weighted && { draws: weighted.events, ...weighted.steps.seen },
  });
  return (step) => riskOf(probability(step));
}
