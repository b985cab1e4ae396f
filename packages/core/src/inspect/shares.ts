import { MOMENT_LENGTH, MOMENTS, MOVING } from '../car/moments.ts';
import { buildLoad } from '../car/stance.ts';
import { fillShares, SHARES } from '../clearance/shares.ts';
import { fillSmallestGap } from '../clearance/smallest-gap.ts';
import { builtTubFromAxle } from '../clearance/tub-place.ts';
import { carColumn, tyreColumn } from '../inputs.ts';
import type { ClearanceSetup } from '../kernel.ts';
import { standingOutline } from '../standing.ts';
import type { Tub } from '../tub/profile.ts';
import { bandDisplacement, loadBulge } from '../tyre/band-shape.ts';
import { COLD_RADIUS, HOT_RADIUS, type TyreSetup } from '../tyre/inflated.ts';
import { lobeAllowance } from '../tyre/lobe.ts';
import { BASE, fillOutlineGrid, outlineRadius } from '../tyre/outline.ts';
import { bodyAtRest, createOpenedRun, openMoment, openRun, type RunColumns } from './opened-run.ts';

/** Shares of the closing: place (moment · shares + share) · capacity + run, m. NaN where the moment is not in the run. */
export interface ShareTable {
  capacity: number;
  /** SHARES in order, then the closing itself: SHARES.length + 1 rows a moment. */
  share: Float64Array;
}

/** Rows a moment takes in a ShareTable. */
export const SHARE_ROWS = SHARES.length + 1;

const BUMP = carColumn('bump');
const LOBE_HEIGHT = tyreColumn('lobeHeight');
const LOBE_ANGLE = tyreColumn('lobeAngle');
const RUN_OUT = tyreColumn('runOut');
const COLD_PRESSURE = tyreColumn('coldPressure');

const opened = createOpenedRun();
const { car, tyre, moments, inflated, lobe, outline } = opened;
const found = new Float64Array(2);
const shares = new Float64Array(SHARES.length);

/**
 * Shares of the closing of every run of a block, at every moment, in one tub at one height: those of `clearanceState`.
 * @param axleHeights  static loaded radius of each run with the build tyre, m
 * @param topHeight  m
 * @param table  overwritten for the first `count` runs
 */
export function fillShareTable(
  setup: ClearanceSetup,
  tyreSetup: TyreSetup,
  columns: RunColumns,
  axleHeights: Float64Array,
  count: number,
  tub: Tub,
  topHeight: number,
  table: ShareTable,
): void {
  const { capacity, share } = table;
  for (let run = 0; run < count; run++) {
    openRun(opened, run, tyreSetup, setup, columns);
    const standing = standingOutline(tyre, tyreSetup, tyre[COLD_PRESSURE]!, buildLoad(car));
    const atRest = bodyAtRest(car, tyre);
    const rest = builtTubFromAxle(car, tub, topHeight, axleHeights[run]!, atRest);
    fillSmallestGap(standing, tub, rest.ahead, rest.above, Number.POSITIVE_INFINITY, found);
    const staticSmallest = found[0]!;
    for (let m = 0; m < MOMENTS.length; m++) {
      const row = m * SHARE_ROWS;
      const body = openMoment(opened, m, tyreSetup, setup);
      if (body === undefined) {
        for (let s = 0; s < SHARE_ROWS; s++) share[(row + s) * capacity + run] = Number.NaN;
        continue;
      }
      fillOutlineGrid(outline, lobe);
      const moving = moments[m * MOMENT_LENGTH + MOVING]!;
      const bump = moving * car[BUMP]!;
      const { ahead, above } = builtTubFromAxle(car, tub, topHeight, axleHeights[run]!, body);
      fillSmallestGap(outline, tub, ahead, above, Number.POSITIVE_INFINITY, found);
      const angle = found[1]!;
      const free = inflated[moving === 0 ? COLD_RADIUS : HOT_RADIUS]!;
      const load = loadBulge(outline, angle);
      const gap = fillShares(
        tub,
        {
          angle,
          staticSmallest,
          staticRadius: outlineRadius(standing, angle),
          ahead: rest.ahead,
          above: rest.above,
          pressure: free - inflated[COLD_RADIUS]!,
          growth: outline[BASE]! - tyre[RUN_OUT]! - free,
          loadBulge: load - bandDisplacement(standing, angle),
          thrustBulge: bandDisplacement(outline, angle) - load,
          lobe: lobeAllowance(angle, tyre[LOBE_HEIGHT]!, tyre[LOBE_ANGLE]!),
          runOut: tyre[RUN_OUT]!,
          drop: body.drop - bump - atRest.drop,
          bump,
          forward: body.forward - atRest.forward,
        },
        shares,
      );
      for (let s = 0; s < SHARES.length; s++) share[(row + s) * capacity + run] = shares[s]!;
      share[(row + SHARES.length) * capacity + run] = staticSmallest - gap;
    }
  }
}
