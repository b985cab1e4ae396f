import {
  addWeightedTallies,
  emptyWeightedTallies,
  type WeightedTallies,
} from '../importance/weighted-risk.ts';
import { addRunTallies, emptyRunTallies, type RunTallies } from '../run-tallies.ts';
import { addPaired, emptyPaired, type PairedCell } from './paired-sums.ts';
import type { StudyPoint } from './study-point.ts';

/** Sums of one setup's plain or weighted draws, and beside the base: the very tallies that a pick is made of. */
export interface PointSums<Tallies> {
  tallies: Tallies;
  /** [tyre or, last, all tyres][tub] */
  paired: PairedCell[][];
}

export interface PlainSums extends PointSums<RunTallies> {
  /**
   * Median of the height that runs require, m: [tyre or, last, all tyres][tub], from the pilot runs, for all others are
   * told from the floors on. Undefined where no height is its own.
   */
  middles: readonly (readonly (number | undefined)[])[];
}

export type WeightedSums = PointSums<WeightedTallies>;

type Heights = readonly (readonly number[])[];

/** Sums with nothing in them. @param heights  of each of the base's tubs, where setups are compared */
export const emptyPlain = (point: StudyPoint, heights: Heights): PlainSums => ({
  tallies: emptyRunTallies(point.setup),
  paired: emptyPaired(point, heights),
  middles: [],
});

export const emptyWeightedSums = (point: StudyPoint, heights: Heights): WeightedSums => ({
  tallies: emptyWeightedTallies(point.setup),
  paired: emptyPaired(point, heights),
});

/** Adds plain sums of the same setup. */
export function addPlain(total: PlainSums, more: PlainSums): void {
  addRunTallies(total.tallies, more.tallies);
  addPaired(total.paired, more.paired);
  total.middles = more.middles;
}

/** Adds weighted sums, in the order of their draws. */
export function addWeightedSums(total: WeightedSums, more: WeightedSums): void {
  addWeightedTallies(total.tallies, more.tallies);
  addPaired(total.paired, more.paired);
}
