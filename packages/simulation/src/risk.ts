import { clopperPearson, studentQuantile } from '@tubgap/uncertainty';
import { type WeightByHeight, type WeightedSteps, weightByHeight } from './tail/weighted-tally.ts';
import { touchesByHeight } from './tally.ts';

/** A probability of touching with its 95 % interval, and how it was found. */
export interface Risk {
  /** Plain events that touch, of all plain events. */
  touches: number;
  events: number;
  estimate: number;
  low: number;
  high: number;
  /** counted: plain events, Clopper–Pearson interval. weighted: draws moved to where touches are, with their weights. */
  method: 'counted' | 'weighted';
  /** Coefficient of variation of the estimate; null when nothing touches. */
  cov: number | null;
  /** Touching events of equal weight that would say as much. */
  effectiveDraws: number;
}

/** Touches that a plain count needs before it is as good as 10 %; with fewer a trusted weighted estimate takes over. */
const ENOUGH_TOUCHES = 100;
/** Effective touching draws below which a weighted estimate is not trusted. */
const LEAST_EFFECTIVE = 50;
/** Share of a weighted estimate that a single draw may carry. */
const MOST_SHARE = 0.1;
/** Plain touches from which the plain count checks the weighted estimate, and the standard errors they may differ by. */
const CHECKING_TOUCHES = 25;
const MOST_DIFFERENCE = 4;
/** Plain events without which nothing checks the weighted estimate. */
const CHECKING_EVENTS = 256;

/** Risk by plain counting. */
export function countedRisk(touches: number, events: number): Risk {
  const { low, high } = clopperPearson(touches, events);
  const estimate = touches / events;
  return {
    touches,
    events,
    estimate,
    low,
    high,
    method: 'counted',
    cov: touches === 0 ? null : Math.sqrt((1 - estimate) / touches),
    effectiveDraws: touches,
  };
}

/** Weighted estimate at one height, before it is judged. */
interface Weighed {
  estimate: number;
  cov: number;
  effective: number;
  share: number;
}

function weighed(found: WeightByHeight, step: number): Weighed | undefined {
  const weight = found.weight[step]!;
  const square = found.square[step]!;
  if (!(weight > 0)) return undefined;
  return {
    estimate: weight / found.events,
    cov: Math.sqrt(Math.max(0, square / (weight * weight) - 1 / found.events)),
    effective: (weight * weight) / square,
    share: found.greatest[step]! / weight,
  };
}

/**
 * Whether the plain count agrees with the weighted estimate wherever it holds enough touches to say so. Where it does
 * not, a cause of touches has no centre, and no weighted figure of this tub is used.
 */
function agrees(touches: Float64Array, events: number, found: WeightByHeight): boolean {
  if (events < CHECKING_EVENTS) return false;
  for (let step = 0; step < touches.length; step++) {
    const plain = touches[step]!;
    if (plain < CHECKING_TOUCHES) return true;
    const other = weighed(found, step);
    if (other === undefined) return false;
    const p = plain / events;
    const error = Math.hypot(other.estimate * other.cov, Math.sqrt((p * (1 - p)) / events));
    if (Math.abs(other.estimate - p) > MOST_DIFFERENCE * error) return false;
  }
  return true;
}

/** Risk at every height of one tub: element n of the tally's heights. */
export type RiskByHeight = (step: number) => Risk;

/**
 * Risk by height from a plain tally and, where that holds too few touches, from the weighted one if it can be trusted.
 * @param steps  counts of a plain tally, `events` in all
 * @param weightedSteps  sums of the weighted tally, undefined when there is none
 */
export function riskByHeight(
  steps: Float64Array,
  events: number,
  weightedSteps: WeightedSteps | undefined,
  weightedEvents: number,
): RiskByHeight {
  const touches = touchesByHeight(steps);
  const found = weightedSteps === undefined ? undefined : weightByHeight(weightedEvents, weightedSteps);
  const trusted = found !== undefined && agrees(touches, events, found);
  return (step) => {
    const counted = countedRisk(touches[step]!, events);
    if (!trusted || counted.touches >= ENOUGH_TOUCHES) return counted;
    const other = weighed(found, step);
    if (other === undefined || other.effective < LEAST_EFFECTIVE || other.share > MOST_SHARE) return counted;
    const spread = Math.sqrt(Math.log1p(other.cov * other.cov));
    const deviate = studentQuantile(0.975, Math.max(2, other.effective - 1));
    return {
      touches: counted.touches,
      events,
      estimate: Math.min(1, other.estimate),
      low: other.estimate * Math.exp(-deviate * spread),
      high: Math.min(1, other.estimate * Math.exp(deviate * spread)),
      method: 'weighted',
      cov: other.cov,
      effectiveDraws: other.effective,
    };
  };
}
