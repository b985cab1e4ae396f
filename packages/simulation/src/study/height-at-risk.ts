import { firstWithin, studentQuantile } from '@tubgap/statistics';
import { SIXTEENTH } from '@tubgap/units';
import type { Risk, RiskByHeight } from '../risk.ts';
import { HEIGHT_STEPS } from '../tally.ts';
import type { Difference } from './paired-difference.ts';
import type { PlainSums, WeightedSums } from './study-sums.ts';
import type { PointTotals } from './study-tasks.ts';

/** Height by one way of estimating. */
interface FoundHeight {
  /** m */
  height: number;
  /** The same height with each part of the draws left out in turn, m; NaN where there is none. */
  leftOut: Float64Array;
}

type Method = Risk['method'];

/** Height at which the estimated risk is what is accepted: without steps, for curves and differences. */
export interface HeightAtRisk extends FoundHeight {
  /** How it was found; of several tyres, how each was. */
  methods: readonly Method[];
  /** The height by the weights, whether they speak or not. */
  weighted: FoundHeight;
}

/** Risk at every step, all draws of one kind or another: never rises. */
type Curve = (step: number) => number;

/**
 * Step at which a falling risk passes what is accepted, with its fraction, straight in the logarithm of the risk.
 * @returns undefined where no height keeps it
 */
export function passingStep(risk: Curve, accepted: number): number | undefined {
  const step = firstWithin((n) => ({ estimate: risk(n) }), HEIGHT_STEPS, accepted, 'estimate');
  if (step === undefined || step === 0) return step;
  const here = risk(step);
  return here > 0 ? step - Math.log(accepted / here) / Math.log(risk(step - 1) / here) : step;
}

/** Sums over the draws that touch at each step. */
function above(steps: ArrayLike<number>): Float64Array {
  const sums = new Float64Array(HEIGHT_STEPS);
  let sum = 0;
  for (let n = HEIGHT_STEPS - 1; n >= 0; n--) {
    sum += steps[n + 1]!;
    sums[n] = sum;
  }
  return sums;
}

/** What a risk is estimated from: draws, and by steps those that touch. */
interface CellSums {
  events: number;
  all: Float64Array;
  unseen: Float64Array;
  weightedEvents: number;
  seen: Float64Array;
}

/** Where a cell's height comes from: its tyre's row, its tub, its lowest height and the least that is told, m. */
export interface CellPlace {
  row: number;
  tub: number;
  lowest: number;
  atRest: number;
}

const rowOf = <T>({ tyres, all }: { tyres: readonly T[]; all: T }, row: number): T => tyres[row] ?? all;

function sumsOf(
  plain: readonly PlainSums[],
  weighted: readonly WeightedSums[],
  { row, tub }: CellPlace,
): CellSums {
  const added = (lists: readonly ArrayLike<number>[]): Float64Array => {
    const total = new Float64Array(HEIGHT_STEPS + 1);
    for (const list of lists) for (let n = 0; n <= HEIGHT_STEPS; n++) total[n]! += list[n]!;
    return above(total);
  };
  const runs = plain.map(({ tallies }) => rowOf(tallies, row));
  const unseen = plain.map(({ tallies }) => rowOf(tallies.unseen, row));
  const tail = weighted.map(({ tallies }) => rowOf(tallies, row));
  const events = (list: readonly { events: number }[]): number =>
    list.reduce((sum, one) => sum + one.events, 0);
  return {
    events: events(runs),
    all: added(runs.map((one) => one.tubs[tub]!.steps)),
    unseen: added(unseen.map((one) => one.tubs[tub]!.steps)),
    weightedEvents: events(tail),
    seen: added(tail.map((one) => one.tubs[tub]!.steps.seen.weight)),
  };
}

/** The estimate that a risk of this method is, without the draws of `less`. */
function curveOf(method: Risk['method'], whole: CellSums, less?: CellSums): Curve {
  const rest = (key: 'events' | 'weightedEvents'): number => whole[key] - (less?.[key] ?? 0);
  const share = (key: 'all' | 'unseen' | 'seen', events: number): Curve => {
    const without = less?.[key];
    return (n) => Math.max(0, whole[key][n]! - (without?.[n] ?? 0)) / events;
  };
  if (method === 'counted') return share('all', rest('events'));
  const seen = share('seen', rest('weightedEvents'));
  const unseen = share('unseen', rest('events'));
  return (n) => seen(n) + unseen(n);
}

/** Parts of the draws put together so that both kinds have as many: each a share of the plain and of the weighted ones. */
function groupsOf({ plainParts, weightedParts }: PointTotals): [PlainSums[], WeightedSums[]][] {
  const plain = plainParts.length;
  const weighted = weightedParts.length;
  const groups = weighted === 0 ? plain : Math.min(plain, weighted);
  const inGroup = <T>(parts: readonly T[], g: number): T[] =>
    parts.filter((_, k) => Math.floor((k * groups) / parts.length) === g);
  return Array.from({ length: groups }, (_, g) => [inGroup(plainParts, g), inGroup(weightedParts, g)]);
}

/**
 * Height of one tyre in one tub at which the estimate of the run risk, the one that is printed, is what is accepted;
 * undefined where there is none.
 */
export function heightAtRisk(
  totals: PointTotals,
  risk: RiskByHeight,
  place: CellPlace,
  accepted: number,
): HeightAtRisk | undefined {
  const within = firstWithin(risk, HEIGHT_STEPS, accepted, 'estimate');
  if (within === undefined) return undefined;
  // By the method that speaks there, with no part left out as well: else what is left out would move more than itself.
  const { method } = risk(within);
  const whole = sumsOf([totals.plain], [totals.weighted], place);
  const heightAt = (curve: Curve): number => {
    const step = passingStep(curve, accepted);
    return step === undefined ? Number.NaN : Math.max(place.atRest, place.lowest + step * SIXTEENTH);
  };
  const groups = groupsOf(totals).map(([plain, weighted]) => sumsOf(plain, weighted, place));
  const foundBy = (one: Method): FoundHeight => ({
    height: heightAt(curveOf(one, whole)),
    leftOut: Float64Array.from(groups, (group) => heightAt(curveOf(one, whole, group))),
  });
  const weighted = foundBy('weighted');
  const found = method === 'weighted' ? weighted : foundBy(method);
  return Number.isNaN(found.height) ? undefined : { ...found, methods: [method], weighted };
}

/** Of several tyres' heights the greatest; undefined when one of them has none. */
export function greatestHeight(heights: readonly (HeightAtRisk | undefined)[]): HeightAtRisk | undefined {
  const all = heights.filter((even) => even !== undefined);
  if (all.length < heights.length || all.length === 0) return undefined;
  const greatest = (found: readonly FoundHeight[]): FoundHeight => ({
    height: Math.max(...found.map(({ height }) => height)),
    leftOut: found[0]!.leftOut.map((_, part) => Math.max(...found.map(({ leftOut }) => leftOut[part]!))),
  });
  return {
    ...greatest(all),
    methods: all.flatMap(({ methods }) => methods),
    weighted: greatest(all.map(({ weighted }) => weighted)),
  };
}

/** Variance of an estimate from its values with each of equal parts left out: the delete-a-group jackknife. */
function jackknifeVariance(leftOut: Float64Array): number {
  const parts = leftOut.length;
  const mean = leftOut.reduce((sum, value) => sum + value, 0) / parts;
  return ((parts - 1) / parts) * leftOut.reduce((sum, value) => sum + (value - mean) ** 2, 0);
}

/**
 * Where the jackknife's interval ends so that it holds in 95 %: a touch that no draw showed does not scatter. By experiment
 * (test/proofs/README.md): with the 97.5 % point of Student's law 52 of 57 intervals held, with this one 55.
 */
const SURE = 0.995;

/** Difference of two heights of the same draws with its 95 % interval by the jackknife, m; NaN where there is none. */
function jackknifed(here: FoundHeight, base: FoundHeight): Difference {
  const estimate = here.height - base.height;
  const variance = jackknifeVariance(here.leftOut.map((height, part) => height - base.leftOut[part]!));
  const half = studentQuantile(SURE, here.leftOut.length - 1) * Math.sqrt(variance);
  return { estimate, low: estimate - half, high: estimate + half };
}

/**
 * Difference of a height to the base's with its 95 % interval, m: from what both become with the same part of the
 * draws left out, so that what is common to both drops out.
 * Source of the jackknife: J. Shao and D. Tu (1995), The Jackknife and Bootstrap, ch. 2 (from memory).
 *
 * Where the two were not found by the same method their draws are not the same either, and one was counted just because
 * its count lies far from its weights: then what the weights say of both is taken in as well.
 * @returns undefined where there are too few draws to tell the interval
 */
export function heightDifference(here: HeightAtRisk, base: HeightAtRisk): Difference | undefined {
  if (here.leftOut.length < 2) return undefined;
  const own = jackknifed(here, base);
  const isAlike = here.methods.every((method, k) => method === base.methods[k]);
  const other = isAlike ? own : jackknifed(here.weighted, base.weighted);
  const low = Math.min(own.low, other.low);
  const high = Math.max(own.high, other.high);
  return Number.isFinite(low) && Number.isFinite(high) ? { estimate: own.estimate, low, high } : undefined;
}
