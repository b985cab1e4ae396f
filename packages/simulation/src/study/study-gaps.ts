import { type GapFigures, inspectGaps } from '../inspect-gaps.ts';
import { createBlockRoom } from '../run-risk.ts';
import type { StudyPoint } from './study-point.ts';

/** Gaps of one setup, looked at in the first plain runs. */
export interface GapLook {
  drawnBy: 'gaps';
}

/** Gaps at the heights where setups are compared: [tyre or, last, all tyres][tub][height]. */
export type GapRows = GapFigures[][][];

/**
 * Gap figures of a setup with the numbers of the base, of which those of the base are its pick's.
 * @param heights  of each of the base's tubs, m
 * @throws ModelRangeError when a draw leaves what the model knows
 */
export function pointGaps(
  { setup, drawn, tubOf }: StudyPoint,
  heights: readonly (readonly number[])[],
  seed: number,
): GapRows {
  const own = { ...setup, tyres: drawn };
  return inspectGaps(
    own,
    seed,
    tubOf.map((tub) => heights[tub] ?? []),
    createBlockRoom(own),
  );
}
