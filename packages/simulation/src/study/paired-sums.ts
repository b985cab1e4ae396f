import type { BlockOutcome } from '../outcome.ts';
import type { SampledBlock } from '../runner.ts';
import type { StudyPoint } from './study-point.ts';

/** Sums over draws that touch in one of two setups alone, at one height; plain draws weigh 1. */
export interface PairedSums {
  /** Weight of the draws that touch here but not in the base, and the other way round. */
  gained: number;
  lost: number;
  /** Of both, the sum of squares. */
  square: number;
}

/** The same apart for draws that lie where the base's mixture leads to, and for the others. */
export interface PairedTouches {
  seen: PairedSums;
  unseen: PairedSums;
}

/** One tyre, or all, in one tub beside the base. */
export interface PairedCell {
  /** Whether any draw asks for another height than in the base. */
  moved: boolean;
  /** At each height where setups are compared, in their order. */
  compared: PairedTouches[];
}

const nothing = (): PairedSums => ({ gained: 0, lost: 0, square: 0 });

/** Nothing counted yet: [tyre or, last, all tyres][tub]. @param heights  of each of the base's tubs */
export const emptyPaired = (
  { setup, tubOf }: StudyPoint,
  heights: readonly (readonly number[])[],
): PairedCell[][] =>
  Array.from({ length: setup.tyres.length + 1 }, () =>
    tubOf.map((tub) => ({
      moved: false,
      compared: Array.from({ length: heights[tub]?.length ?? 0 }, () => ({
        seen: nothing(),
        unseen: nothing(),
      })),
    })),
  );

const addSums = (to: PairedSums, from: PairedSums): void => {
  to.gained += from.gained;
  to.lost += from.lost;
  to.square += from.square;
};

/** Adds the sums of more draws, in their order. */
export function addPaired(
  total: readonly (readonly PairedCell[])[],
  more: readonly (readonly PairedCell[])[],
): void {
  total.forEach((tubs, row) => {
    tubs.forEach((cell, t) => {
      const other = more[row]![t]!;
      cell.moved ||= other.moved;
      cell.compared.forEach(({ seen, unseen }, k) => {
        addSums(seen, other.compared[k]!.seen);
        addSums(unseen, other.compared[k]!.unseen);
      });
    });
  });
}

/** An evaluated block of a setup: what its runs did, and the heights in m that each tyre's need in each tub. */
export interface PairedBlock {
  outcome: BlockOutcome;
  requiredHeight: (tyre: number, tub: number, run: number) => number;
}

/**
 * Compares one block of a setup with the base's, run for run.
 * @param steps  of each of the base's tubs at which touches are compared
 */
export function pairBlock(
  { setup, tyreOf, tubOf }: StudyPoint,
  own: PairedBlock,
  base: PairedBlock,
  steps: readonly (readonly number[])[],
  { weights, seen, count }: SampledBlock,
  cells: readonly (readonly PairedCell[])[],
): void {
  const last = setup.tyres.length;
  const baseLast = base.outcome.steps.length - 1;
  const tyreMoved = (row: number, beside: number, t: number, besideTub: number): boolean => {
    for (let run = 0; run < count; run++) {
      if (own.requiredHeight(row, t, run) !== base.requiredHeight(beside, besideTub, run)) return true;
    }
    return false;
  };
  cells.forEach((tubs, row) => {
    const beside = row === last ? baseLast : tyreOf[row]!;
    tubs.forEach((cell, t) => {
      const besideTub = tubOf[t]!;
      if (beside < 0 || besideTub < 0) return;
      const here = own.outcome.steps[row]![t]!;
      const there = base.outcome.steps[beside]![besideTub]!;
      for (let run = 0; run < count; run++) {
        if (here[run] === there[run]) continue;
        cell.moved = true;
        cell.compared.forEach((touches, k) => {
          const step = steps[besideTub]![k]!;
          const touchesHere = here[run]! > step;
          if (touchesHere === there[run]! > step) return;
          const weight = weights[run]!;
          const sums = seen[run] === 1 ? touches.seen : touches.unseen;
          sums[touchesHere ? 'gained' : 'lost'] += weight;
          sums.square += weight * weight;
        });
      }
      cell.moved ||=
        row === last
          ? last !== baseLast || cells.slice(0, last).some((others) => others[t]!.moved)
          : tyreMoved(row, beside, t, besideTub);
    });
  });
}
