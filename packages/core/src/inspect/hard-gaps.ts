import { MOMENTS } from '../car/moments.ts';
import type { Gap } from '../clearance/gap.ts';
import { type HardPointFan, hardGapPlace } from '../clearance/hard-gap.ts';
import type { ClearanceSetup } from '../kernel.ts';
import type { TyreSetup } from '../tyre/inflated.ts';
import { fillOutlineGrid } from '../tyre/outline.ts';
import { bodyAtRest, createOpenedRun, openMoment, openRun, type RunColumns } from './opened-run.ts';

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

const opened = createOpenedRun();
const { lobe, outline } = opened;

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
    for (let m = MOMENTS.length - 1; m >= 0; m--) {
      const body = openMoment(opened, m, tyreSetup, setup);
      if (body === undefined) continue;
      fillOutlineGrid(outline, lobe);
      hardPoints.forEach((fan, h) => {
        const place = h * table.capacity + run;
        const { gap, angle } = hardGapPlace(outline, fan, body.drop, body.forward, table.gap[place]!);
        if (gap >= table.gap[place]!) return;
        table.gap[place] = gap;
        table.angle[place] = angle;
        table.moment[place] = m;
      });
    }
  }
}

/**
 * Gap of a standing tyre to a hard point, as a feeler finds it, the springs as they were reset for that tyre.
 * @param standing  outline as of `standingOutline`
 * @param tyreDraw  one value a TYRE_INPUTS name; `carDraw` one a CAR_INPUTS name
 */
export function standingHardGap(
  standing: Float64Array,
  fan: HardPointFan,
  carDraw: Float64Array,
  tyreDraw: Float64Array,
): Gap {
  const { drop, forward } = bodyAtRest(carDraw, tyreDraw);
  return hardGapPlace(standing, fan, drop, forward);
}
