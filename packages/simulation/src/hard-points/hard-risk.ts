import { clopperPearson, studentQuantile } from '@tubgap/uncertainty';
import { countedRisk, type Risk } from '../risk.ts';

/** Plain touches with which the count is as good as 10 %, and effective weighted draws that make an estimate. */
const ENOUGH_TOUCHES = 100;
const LEAST_EFFECTIVE = 50;
/** Share of a weighted estimate that a single draw may carry. */
const MOST_SHARE = 0.1;
/** Standard errors by which a count and a weighted estimate may differ. */
const MOST_DIFFERENCE = 4;

interface Sums {
  weight: number;
  square: number;
  greatest: number;
}

/** An estimate from weighted draws with its 95 % interval; undefined when too little stands behind it. */
function weightedRisk({ weight, square, greatest }: Sums, events: number, counted: Risk): Risk | undefined {
  if (!(weight > 0)) return undefined;
  const effective = weight ** 2 / square;
  if (effective < LEAST_EFFECTIVE || greatest > MOST_SHARE * weight) return undefined;
  const estimate = Math.min(1, weight / events);
  const cov = Math.sqrt(Math.max(0, square / weight ** 2 - 1 / events));
  const reach = Math.exp(
    studentQuantile(0.975, Math.max(2, effective - 1)) * Math.sqrt(Math.log1p(cov ** 2)),
  );
  return {
    ...counted,
    estimate,
    low: estimate / reach,
    high: Math.min(1, estimate * reach),
    method: 'weighted',
    cov,
    effectiveDraws: effective,
  };
}

/**
 * Chance that a run leaves less than `gap`: counted, or weighted where the count is small, the weighted draws say enough
 * and both agree.
 * @param gaps  of the weighted runs, m
 * @param touches  plain runs with less, of `events`
 */
export function hardRisk(
  gaps: Float64Array,
  weights: Float64Array,
  gap: number,
  touches: number,
  events: number,
): Risk {
  const counted = countedRisk(touches, events);
  if (touches >= ENOUGH_TOUCHES) return counted;
  const sums: Sums = { weight: 0, square: 0, greatest: 0 };
  for (let run = 0; run < gaps.length; run++) {
    if (gaps[run]! >= gap) continue;
    const weight = weights[run]!;
    sums.weight += weight;
    sums.square += weight ** 2;
    sums.greatest = Math.max(sums.greatest, weight);
  }
  const found = weightedRisk(sums, gaps.length, counted);
  if (found === undefined) return counted;
  const error = Math.hypot(found.estimate * found.cov!, Math.sqrt(counted.estimate / events));
  return Math.abs(found.estimate - counted.estimate) > MOST_DIFFERENCE * error ? counted : found;
}

/**
 * The gap that a run leaves less than with a chance of surely no more than `level`, m: the larger of what plain and
 * weighted runs support; undefined when neither can speak of a chance so small.
 */
export function rareGap(
  gaps: Float64Array,
  weightedGaps: Float64Array,
  weights: Float64Array,
  level: number,
): number | undefined {
  const plain = gaps.toSorted();
  let best: number | undefined;
  for (let k = 0; k < plain.length && clopperPearson(k, plain.length).high <= level; k++) best = plain[k]!;
  const order = Array.from(weightedGaps.keys()).sort((a, b) => weightedGaps[a]! - weightedGaps[b]!);
  const events = weightedGaps.length;
  const counted = countedRisk(0, events);
  const sums: Sums = { weight: 0, square: 0, greatest: 0 };
  for (let k = 0; k + 1 < order.length; k++) {
    const weight = weights[order[k]!]!;
    sums.weight += weight;
    sums.square += weight ** 2;
    sums.greatest = Math.max(sums.greatest, weight);
    if (sums.weight > level * events) break;
    const found = weightedRisk(sums, events, counted);
    if (found === undefined) continue;
    if (found.high > level) break;
    // Strictly nearer than the next gap are only the runs summed so far.
    const next = weightedGaps[order[k + 1]!]!;
    if (best === undefined || next > best) best = next;
  }
  return best;
}
