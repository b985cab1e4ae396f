import { normalQuantile, SEEN_FROM } from '@tubgap/statistics';
import type { Risk } from '../risk.ts';
import type { PairedSums, PairedTouches } from './paired-sums.ts';

/** Difference of two probabilities, or heights, with its 95 % interval. */
export interface Difference {
  estimate: number;
  low: number;
  high: number;
}

/**
 * Difference of two probabilities in the same draws, with its adjusted Wald interval: one draw more, as heavy as any, is
 * put on either side, so that no disagreement in few draws is not taken for none at all.
 * Source for counts: D. G. Bonett and R. M. Price (2012), J. Educ. Behav. Stat. 37:479 (from memory); with weights: derived.
 * @param heaviest  weight that no draw exceeds; 1 for counts
 */
export function pairedDifference(
  { gained, lost, square }: PairedSums,
  draws: number,
  heaviest = 1,
): Difference {
  const n = draws + 2;
  const middle = (gained - lost) / n;
  const variance = (square + 2 * heaviest ** 2) / n - middle ** 2;
  const half = normalQuantile(0.975) * Math.sqrt(Math.max(0, variance) / n);
  return { estimate: (gained - lost) / draws, low: middle - half, high: middle + half };
}

/** Draws of a study, plain and weighted. */
export interface DrawCounts {
  plain: number;
  weighted: number;
}

/** How far the ends of an interval lie from its estimate. */
type Arms = [below: number, above: number];
const armsOf = ({ estimate, low, high }: Difference): Arms => [estimate - low, high - estimate];
const together = ([below, above]: Arms, [otherBelow, otherAbove]: Arms): Arms => [
  Math.hypot(below, otherBelow),
  Math.hypot(above, otherAbove),
];

const sum = (one: PairedSums, other: PairedSums): PairedSums => ({
  gained: one.gained + other.gained,
  lost: one.lost + other.lost,
  square: one.square + other.square,
});

/**
 * Difference of a risk to the base's: that of the two figures as they are told. Its interval comes from the draws in
 * which exactly one of the two touches, split as the risks are: weights speak where the mixture leads to, plain draws
 * elsewhere, put together by the method of variance estimates recovery (G. Y. Zou and A. Donner 2008, Stat. Med.
 * 27:1693; from memory). Where the two were not found by the same method their draws are not the same either, and both
 * intervals are put together as if they had nothing in common: rather too wide.
 */
export function riskDifference(
  risk: Risk,
  base: Risk,
  plain: PairedTouches,
  weighted: PairedTouches,
  draws: DrawCounts,
): Difference {
  const arms = (): Arms => {
    if (risk.method !== base.method) {
      const [below, above] = armsOf(base);
      return together(armsOf(risk), [above, below]);
    }
    if (risk.method === 'counted')
      return armsOf(pairedDifference(sum(plain.seen, plain.unseen), draws.plain));
    return together(
      armsOf(pairedDifference(weighted.seen, draws.weighted, 1 / SEEN_FROM)),
      armsOf(pairedDifference(plain.unseen, draws.plain)),
    );
  };
  const estimate = risk.estimate - base.estimate;
  const [below, above] = arms();
  return { estimate, low: estimate - below, high: estimate + above };
}
