import { exceedance, firstWithin, SEEN_FROM, splitProbability } from '@tubgap/statistics';
import { type Risk, riskOf } from '../risk.ts';

/** Smallest gaps of weighted runs to one hard point, m, and the weights of the runs. */
export interface WeightedGaps {
  gaps: Float64Array;
  weights: Float64Array;
}

/** Plain runs in which a hard point is touched, and those of them where the mixture does not lead to. */
export interface HardCount {
  touches: number;
  unseen: number;
  events: number;
}

/** Chance that a run leaves less than `gap`, m: by the rule that every risk is told by. */
export function hardRisk({ gaps, weights }: WeightedGaps, gap: number, count: HardCount): Risk {
  const weighted = { draws: gaps.length, weight: 0, square: 0 };
  for (let run = 0; run < gaps.length; run++) {
    const weight = weights[run]!;
    if (gaps[run]! >= gap || weight > 1 / SEEN_FROM) continue;
    weighted.weight += weight;
    weighted.square += weight ** 2;
  }
  const plain = { draws: count.events, hits: count.touches, unseen: count.unseen };
  return riskOf(splitProbability({ plain, weighted }));
}

/** Steps into which the gaps are put where one is sought, and the share of plain runs among which a rare one is. */
const STEPS = 500;
const AMONG = 0.05;

/**
 * The gap that a run leaves less than with a chance of no more than `level`, m, as far as causes of touches were seen;
 * undefined when the runs cannot speak of a chance so small.
 * @param plain  gaps of plain runs, m, and for each 1 where the mixture leads to
 */
export function rareGap(
  plain: Readonly<{ gaps: Float64Array; seen: Uint8Array }>,
  moved: WeightedGaps,
  level: number,
): number | undefined {
  const among = Math.min(1, Math.max(AMONG, 2 * level));
  const widest =
    plain.gaps.toSorted()[Math.min(plain.gaps.length - 1, Math.floor(among * plain.gaps.length))]!;
  const least = [...plain.gaps, ...moved.gaps].reduce((a, b) => Math.min(a, b), widest);
  const step = (widest - least) / STEPS;
  if (!(step > 0)) return undefined;
  // Value n of the grid is the gap `widest − n step`; a run exceeds it when it leaves less.
  const exceeded = (gap: number): number =>
    Math.min(STEPS + 1, Math.max(0, Math.ceil((widest - gap) / step - 1e-9)));
  const empty = (): Float64Array => new Float64Array(STEPS + 2);
  const hits = empty();
  const unseen = empty();
  const weight = empty();
  const square = empty();
  plain.gaps.forEach((gap, run) => {
    hits[exceeded(gap)]!++;
    if (plain.seen[run] === 0) unseen[exceeded(gap)]!++;
  });
  moved.gaps.forEach((gap, run) => {
    const own = moved.weights[run]!;
    if (own > 1 / SEEN_FROM) return;
    weight[exceeded(gap)]! += own;
    square[exceeded(gap)]! += own ** 2;
  });
  const chance = exceedance({
    plain: { draws: plain.gaps.length, hits, unseen },
    weighted: { draws: moved.gaps.length, weight, square },
  });
  const found = firstWithin(chance, STEPS + 1, level, 'seenHigh');
  return found === undefined ? undefined : widest - found * step;
}
