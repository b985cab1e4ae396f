import { studentQuantile } from './distributions/student-t.ts';
import { clopperPearson, relativeInterval } from './interval.ts';

/**
 * Mixture density over plain density from which on weighted draws speak of an event: a draw moved there weighs a sixth
 * of a plain one at most. A cause that lies there and that n weighted draws never met is then no likelier than what 6 n
 * plain draws without a hit leave open: as many as 32,768 weighted draws stand beside at most. From 1.5 to 10 the bounds
 * of the trials in split-probability.test.ts did not differ; in the demo fewer than 1 in 100 of the touches at 1 in 650
 * runs and rarer lie below 6, at 30 a third would.
 */
export const SEEN_FROM = 6;

/** Hits that a plain count needs before it is as good as 10 %. */
const ENOUGH_HITS = 100;
/** Hits of equal weight below which the scatter of weighted ones is not known well enough for an interval. */
const LEAST_EFFECTIVE = 50;

/** Plain and weighted draws in which an event happens. */
export interface EventSums {
  plain: {
    draws: number;
    /** Draws in which it happens, all of them, and those of them where the mixture's density is below SEEN_FROM. */
    hits: number;
    unseen: number;
  };
  weighted: {
    draws: number;
    /** Over the draws in which it happens and whose weight is at most 1/SEEN_FROM: of the weights, and of their squares. */
    weight: number;
    square: number;
  };
}

/** A probability with its 95 % interval, and how it was found. */
export interface Probability {
  readonly hits: number;
  readonly draws: number;
  readonly estimate: number;
  readonly low: number;
  readonly high: number;
  /** Upper end as far as causes were seen: what no weighted draw could have met is taken as counted, without a bound. */
  readonly seenHigh: number;
  /** counted: plain draws alone, Clopper–Pearson interval. weighted: weighted draws where they speak, plain ones elsewhere. */
  readonly method: 'counted' | 'weighted';
  /** Coefficient of variation of the estimate; null when nothing was hit. */
  readonly cov: number | null;
  /** Hits of equal weight that would say as much. */
  readonly effectiveDraws: number;
}

/** A probability by plain counting. @throws RangeError for counts that are none */
export function countedProbability(hits: number, draws: number): Probability {
  const { low, high } = clopperPearson(hits, draws);
  const estimate = hits / draws;
  return {
    hits,
    draws,
    estimate,
    low,
    high,
    seenHigh: high,
    method: 'counted',
    cov: hits === 0 ? null : Math.sqrt((1 - estimate) / hits),
    effectiveDraws: hits,
  };
}

/** Whether the plain count alone is as good as is asked for. */
export const countSuffices = (hits: number): boolean => hits >= ENOUGH_HITS;

/** Whether weighted hits are worth as many of equal weight as an interval needs. */
export const weightsSuffice = (weight: number, square: number): boolean =>
  weight > 0 && weight ** 2 / square >= LEAST_EFFECTIVE;

/**
 * A rare probability that claims no more than was seen. A weighted figure speaks only of causes that the mixture leads
 * to; so the event is split. Where the mixture's density is at least SEEN_FROM times the plain one weights are bounded
 * and the weighted estimate speaks, with its interval; the rest is counted by plain draws, no hit included. Both are
 * put together by the method of variance estimates recovery (G. Y. Zou and A. Donner 2008, Stat. Med. 27:1693; from
 * memory). So the upper bound is never below what plain draws without a hit leave open.
 *
 * The plain draws must have had no part in finding the mixture's centres: those that had lie near one.
 * The plain count answers where it holds 100 hits, where the weighted hits are worth fewer than 50 of equal weight, and
 * where its interval lies above the split estimate: there a cause was met that no weight tells of.
 * @throws RangeError for counts that are none
 */
export function splitProbability({ plain, weighted }: EventSums): Probability {
  const counted = countedProbability(plain.hits, plain.draws);
  const { weight, square, draws } = weighted;
  const effective = weight > 0 ? weight ** 2 / square : 0;
  if (countSuffices(plain.hits) || !weightsSuffice(weight, square)) return counted;
  const seen = weight / draws;
  const cov = Math.sqrt(Math.max(0, square / weight ** 2 - 1 / draws));
  const ends = relativeInterval(seen, cov, studentQuantile(0.975, effective - 1));
  const rest = countedProbability(plain.unseen, plain.draws);
  const estimate = Math.min(1, seen + rest.estimate);
  if (estimate < counted.low) return counted;
  const error = Math.hypot(seen * cov, rest.estimate * (rest.cov ?? 0));
  return {
    hits: plain.hits,
    draws: plain.draws,
    estimate,
    low: Math.max(0, estimate - Math.hypot(seen - ends.low, rest.estimate - rest.low)),
    high: Math.min(1, estimate + Math.hypot(ends.high - seen, rest.high - rest.estimate)),
    seenHigh: Math.min(1, ends.high + rest.estimate),
    method: 'weighted',
    cov: error / estimate,
    effectiveDraws: error > 0 ? (estimate / error) ** 2 : effective,
  };
}
