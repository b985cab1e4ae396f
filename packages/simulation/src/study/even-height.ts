import { studentQuantile } from '@tubgap/statistics';
import { SIXTEENTH } from '@tubgap/units';
import type { Risk, RiskByHeight } from '../risk.ts';
import { HEIGHT_STEPS } from '../tally.ts';
import type { Difference } from './paired-count.ts';
import type { CellSums, PointSums } from './study-sums.ts';
import type { PointTotals } from './study-tasks.ts';

/** Height at which the estimated risk is what is accepted: without steps, for curves and differences. */
export interface EvenHeight {
  /** m */
  height: number;
  /** Which draws it comes from. */
  method: Risk['method'];
  /** The same height with each part of the draws left out in turn, m; NaN where there is none. */
  leftOut: Float64Array;
}

/**
 * Step at which a falling risk passes what is accepted, with its fraction, straight in the logarithm of the risk.
 * @param weight  of the draws that touch at the lowest n heights and no more
 * @returns undefined where no height keeps it
 */
function passingStep(weight: (n: number) => number, events: number, accepted: number): number | undefined {
  const limit = accepted * events;
  let touching = 0;
  for (let step = HEIGHT_STEPS - 1; step >= 0; step--) {
    const more = touching + weight(step + 1);
    if (more > limit) {
      if (step === HEIGHT_STEPS - 1) return undefined;
      if (!(touching > 0)) return step + 1;
      return step + 1 - Math.log(limit / touching) / Math.log(more / touching);
    }
    touching = more;
  }
  return 0;
}

/** Where a cell's height comes from: its tyre's row, its tub, its lowest height and the least it may be, m. */
export interface CellPlace {
  row: number;
  tub: number;
  lowest: number;
  atRest: number;
}

/** Height of one tyre in one tub at which the run risk is what is accepted; undefined where there is none. */
export function evenHeight(
  totals: PointTotals,
  risk: RiskByHeight,
  { row, tub, lowest, atRest }: CellPlace,
  accepted: number,
): EvenHeight | undefined {
  const cellOf = (sums: PointSums): CellSums => sums.cells[row]![tub]!;
  const passing = (whole: PointSums): number | undefined => {
    const { weight } = cellOf(whole).steps;
    return passingStep((n) => weight[n]!, whole.events, accepted);
  };
  const heightAt = (step: number): number => Math.max(atRest, lowest + step * SIXTEENTH);
  const found = (
    method: Risk['method'],
    step: number,
    whole: PointSums,
    parts: readonly PointSums[],
  ): EvenHeight => {
    const { weight } = cellOf(whole).steps;
    const leftOut = Float64Array.from(parts, (part) => {
      const own = cellOf(part).steps.weight;
      const events = whole.events - part.events;
      const without = passingStep((n) => Math.max(0, weight[n]! - own[n]!), events, accepted);
      return without === undefined || events === 0 ? Number.NaN : heightAt(without);
    });
    return { height: heightAt(step), method, leftOut };
  };
  const { plain, weighted, plainParts, weightedParts } = totals;
  const weightedStep = weighted.events > 0 ? passing(weighted) : undefined;
  if (weightedStep !== undefined && risk(Math.ceil(weightedStep)).method === 'weighted') {
    return found('weighted', weightedStep, weighted, weightedParts);
  }
  const step = passing(plain);
  return step === undefined ? undefined : found('counted', step, plain, plainParts);
}

/** Of several tyres' heights the greatest; undefined when one of them has none. */
export function greatestHeight(heights: readonly (EvenHeight | undefined)[]): EvenHeight | undefined {
  let greatest: EvenHeight | undefined;
  for (const even of heights) {
    if (even === undefined) return undefined;
    if (greatest === undefined || even.height > greatest.height) greatest = even;
  }
  if (greatest === undefined) return undefined;
  const { method } = greatest;
  const alike = heights.filter((even) => even?.method === method) as EvenHeight[];
  return {
    ...greatest,
    leftOut: greatest.leftOut.map((_, part) => Math.max(...alike.map(({ leftOut }) => leftOut[part]!))),
  };
}

/** Variance of an estimate from its values with each of equal parts left out: the delete-a-group jackknife. */
function jackknifeVariance(leftOut: Float64Array): number {
  const parts = leftOut.length;
  const mean = leftOut.reduce((sum, value) => sum + value, 0) / parts;
  return ((parts - 1) / parts) * leftOut.reduce((sum, value) => sum + (value - mean) ** 2, 0);
}

/**
 * Difference of a height to the base's with its 95 % interval, m: from what both become with the same part of the
 * draws left out, so that what is common to both drops out. Where they come from different draws their scatters add up.
 * Source of the jackknife: J. Shao and D. Tu (1995), The Jackknife and Bootstrap, ch. 2 (from memory).
 * @returns undefined where there are too few draws to tell the interval
 */
export function heightDifference(here: EvenHeight, base: EvenHeight): Difference | undefined {
  const estimate = here.height - base.height;
  const paired = here.method === base.method && here.leftOut.length === base.leftOut.length;
  const variance = paired
    ? jackknifeVariance(here.leftOut.map((height, part) => height - base.leftOut[part]!))
    : jackknifeVariance(here.leftOut) + jackknifeVariance(base.leftOut);
  const freedom = Math.min(here.leftOut.length, base.leftOut.length) - 1;
  if (freedom < 1 || !Number.isFinite(variance)) return undefined;
  const half = studentQuantile(0.975, freedom) * Math.sqrt(variance);
  return { estimate, low: estimate - half, high: estimate + half };
}
