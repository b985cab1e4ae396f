import { addTail, emptyTailTallies, type TailTallies } from '../importance/tail-risk.ts';
import { addRunTallies, emptyRunTallies, type RunTallies } from '../run-tallies.ts';
import { addPaired, emptyPaired, type PairedCell } from './paired-sums.ts';
import type { StudyPoint } from './study-point.ts';

/** Sums of one setup's plain or weighted draws, and beside the base: the very tallies that a pick is made of. */
export interface PointSums<Tallies> {
  tallies: Tallies;
  /** [tyre or, last, all tyres][tub] */
  paired: PairedCell[][];
}

export type PlainSums = PointSums<RunTallies>;
export type WeightedSums = PointSums<TailTallies>;

type Heights = readonly (readonly number[])[];

/** Sums with nothing in them. @param heights  of each of the base's tubs, where setups are compared */
export const emptyPlain = (point: StudyPoint, heights: Heights): PlainSums => ({
  tallies: emptyRunTallies(point.setup),
  paired: emptyPaired(point, heights),
});

export const emptyWeightedSums = (point: StudyPoint, heights: Heights): WeightedSums => ({
  tallies: emptyTailTallies(point.setup),
  paired: emptyPaired(point, heights),
});

/** Adds plain sums. */
export function addPlain(total: PlainSums, more: PlainSums): void {
  addRunTallies(total.tallies, more.tallies);
  addPaired(total.paired, more.paired);
}

/** Adds weighted sums, in the order of their draws. */
export function addWeightedSums(total: WeightedSums, more: WeightedSums): void {
  addTail(total.tallies, more.tallies);
  addPaired(total.paired, more.paired);
}
