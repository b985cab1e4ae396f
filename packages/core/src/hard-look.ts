import { HAPPENS, MOMENT_LENGTH, MOMENTS_LENGTH, MOVING, SPRING_FORCE, THRUST_SHARE } from './car/moments.ts';
import type { Gap } from './clearance/gap.ts';
import { type HardPointFan, hardGapPlace } from './clearance/hard-gap.ts';
import { tyreColumn } from './inputs.ts';
import { type ClearanceSetup, dropAtMoment, forwardAtMoment } from './kernel.ts';
import { createOpenedRun, openRun, type RunColumns } from './opened-run.ts';
import type { TyreSetup } from './tyre/inflated.ts';
import { fillMomentOutline } from './tyre/moment-outline.ts';
import { fillOutlineGrid, OUTLINE_LENGTH } from './tyre/outline.ts';

/** Smallest gap of every run to each hard point over its moments: place point · capacity + run. */
export interface HardGapTable {
  capacity: number;
  /** m, before the reserve is taken off; negative when the tyre reaches into the point. */
  gap: Float64Array;
  /** Hub angle of the outline's nearest point, rad. */
  angle: Float64Array;
  /** Index into MOMENTS. */
  moment: Uint8Array;
}

const RIDE_CHANGE = tyreColumn('rideHeightChange');

const opened = createOpenedRun();
const { car, tyre, moments, inflated, lobe } = opened;
const outline = new Float64Array(OUTLINE_LENGTH);

/**
 * Gaps of a block of runs to every hard point, the kernel's own search without its early ends: the kernel's gap
 * wherever that is below the reserve, and the true one beyond.
 * @param table  with room for all hard points times `capacity`, overwritten for the first `count` runs
 */
export function fillHardGaps(
  setup: ClearanceSetup,
  tyreSetup: TyreSetup,
  columns: RunColumns,
  count: number,
  table: HardGapTable,
): void {
  const { hardPoints } = setup;
  for (let run = 0; run < count; run++) {
    openRun(opened, run, tyreSetup, setup, columns);
    for (let h = 0; h < hardPoints.length; h++) {
      table.gap[h * table.capacity + run] = Number.POSITIVE_INFINITY;
    }
    // The last moments of a run are the tightest as a rule: most of the others then need no search.
    for (let at = MOMENTS_LENGTH - MOMENT_LENGTH; at >= 0; at -= MOMENT_LENGTH) {
      if (moments[at + HAPPENS]! === 0) continue;
      fillMomentOutline(tyre, inflated, tyreSetup, moments, at, setup.growthFactor, outline);
      fillOutlineGrid(outline, lobe);
      const drop = dropAtMoment(car, tyre[RIDE_CHANGE]!, moments[at + SPRING_FORCE]!, moments[at + MOVING]!);
      const forward = forwardAtMoment(car, drop, moments[at + THRUST_SHARE]!);
      hardPoints.forEach((fan, h) => {
        const place = h * table.capacity + run;
        const { gap, angle } = hardGapPlace(outline, fan, drop, forward, table.gap[place]!);
        if (gap >= table.gap[place]!) return;
        table.gap[place] = gap;
        table.angle[place] = angle;
        table.moment[place] = at / MOMENT_LENGTH;
      });
    }
  }
}

/**
 * Gap of a standing tyre to a hard point, as a feeler finds it: springs reset for this tyre hold the body higher.
 * @param standing  outline as of `standingOutline`
 * @param tyreDraw  one value a TYRE_INPUTS name; `carDraw` one a CAR_INPUTS name
 */
export function standingHardGap(
  standing: Float64Array,
  fan: HardPointFan,
  carDraw: Float64Array,
  tyreDraw: Float64Array,
): Gap {
  const drop = -tyreDraw[RIDE_CHANGE]!;
  return hardGapPlace(standing, fan, drop, forwardAtMoment(carDraw, drop, 0));
}
