import { BLOCK } from '@tubgap/statistics';
import { SIXTEENTH } from '@tubgap/units';
import { type Floors, floorsOf, PILOT_BLOCKS } from '../floors.ts';
import { NO_CENTRES } from '../importance/mixture.ts';
import { readBlock } from '../outcome.ts';
import { createBlockRoom, evaluateBlock } from '../run-risk.ts';
import { countBlock, emptyRunTallies, type RunTallies } from '../run-tallies.ts';
import { visitBlocks } from '../runner.ts';
import { requiredHeight } from '../tally.ts';
import type { StudyPoint } from './study-point.ts';
import { createVariantRoom, fillVariant } from './variant.ts';

/** Pilot runs of each setup that has had a task here. */
const pilots = new WeakMap<StudyPoint, RunTallies>();

/**
 * Runs of a setup counted at every height: the first of its plain draws. The same wherever a task is worked out, and kept
 * for the next one.
 */
export function pilotOf(point: StudyPoint, base: StudyPoint, seed: number): RunTallies {
  const known = pilots.get(point);
  if (known !== undefined) return known;
  const tallies = emptyRunTallies(point.setup);
  const baseRoom = createBlockRoom(base.setup);
  const own = point === base ? undefined : createVariantRoom(point, base, baseRoom);
  const sample = { seed, draws: PILOT_BLOCKS * BLOCK, centres: NO_CENTRES };
  const range = { drawnBy: 'plain' as const, firstBlock: 0, endBlock: PILOT_BLOCKS };
  visitBlocks(base.setup, base.space, sample, range, baseRoom, (outcome, drawn) => {
    if (own === undefined) {
      countBlock(outcome, drawn.seen, tallies);
      return;
    }
    fillVariant(point, own, drawn);
    evaluateBlock(point.setup, own.room, drawn.count);
    countBlock(readBlock(point.setup, own.room, drawn.count), drawn.seen, tallies);
  });
  pilots.set(point, tallies);
  return tallies;
}

/** Floors of a setup. @param heights  of each of the base's tubs at which setups are compared, m */
export const pilotFloors = (
  pilot: RunTallies,
  { tubOf, accepted, ownAccepted }: StudyPoint,
  heights: readonly (readonly number[])[],
): Floors =>
  floorsOf(
    pilot,
    ownAccepted.map((own) => own ?? accepted),
    tubOf.map((tub) => heights[tub] ?? []),
  );

/**
 * Floors of a setup at a height, m, below which nothing is asked, or at the quarter of an inch under it.
 * @param heights  of every tyre, or of each of the base's
 */
export const floorsFrom = (heights: number | readonly number[], { setup, tyreOf }: StudyPoint): Floors => {
  const quarter = 4 * SIXTEENTH;
  return setup.tyres.map((_, i) => {
    const height = typeof heights === 'number' ? heights : (heights[tyreOf[i]!] ?? 0);
    const floor = Math.floor(height / quarter + 1e-9) * quarter;
    return setup.lowestHeights.map((lowest) => Math.max(lowest, floor));
  });
};

/** Medians of the required height, m: [tyre or, last, all tyres][tub]. */
export const middleHeights = ({ tyres, all }: RunTallies): (number | undefined)[][] =>
  [...tyres, all].map(({ tubs, events }) => tubs.map((tub) => requiredHeight(tub, events, 0.5)));
