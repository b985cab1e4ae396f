import { HAPPENS, MOMENT_LENGTH, MOMENTS, MOVING, SPRING_FORCE, THRUST_SHARE } from './car/moments.ts';
import { buildLoad } from './car/stance.ts';
import { fillSmallestGap, type Gap } from './clearance/gap.ts';
import { type HardPointFan, hardGapPlace } from './clearance/hard-gap.ts';
import { fillShares, SHARES } from './clearance/shares.ts';
import { carColumn, tyreColumn } from './inputs.ts';
import { type ClearanceSetup, dropAtMoment, forwardAtMoment } from './kernel.ts';
import { createOpenedRun, openRun, type RunColumns } from './opened-run.ts';
import { standingOutline } from './standing.ts';
import type { Tub } from './tub/profile.ts';
import { bandDisplacement, loadBulge } from './tyre/band-shape.ts';
import { COLD_RADIUS, HOT_RADIUS, type TyreSetup } from './tyre/inflated.ts';
import { lobeAllowance } from './tyre/lobe.ts';
import { fillMomentOutline } from './tyre/moment-outline.ts';
import { BASE, fillOutlineGrid, OUTLINE_LENGTH, outlineRadius, WIDEST } from './tyre/outline.ts';

/** Tubs at heights of their own, in the order in which `fillGaps` answers. */
export interface TubHeights {
  tub: Tub;
  /** Top heights, m. */
  heights: readonly number[];
}

/** Smallest gap of each run at each tub and height: place (tub, height) · capacity + run, tubs one after another. */
export interface GapTable {
  capacity: number;
  /** m, before the reserve is taken off. */
  gap: Float64Array;
  /** rad */
  angle: Float64Array;
  /** Index into MOMENTS. */
  moment: Uint8Array;
}

const TOP_ERROR = carColumn('topHeightError');
const CENTRE_ERROR = carColumn('centreError');
const BUMP = carColumn('bump');
const LOBE_HEIGHT = tyreColumn('lobeHeight');
const LOBE_ANGLE = tyreColumn('lobeAngle');
const RIDE_CHANGE = tyreColumn('rideHeightChange');
const RUN_OUT = tyreColumn('runOut');
const COLD_PRESSURE_INPUT = tyreColumn('coldPressure');

const opened = createOpenedRun();
const { car, tyre, moments, inflated, lobe } = opened;
const outline = new Float64Array(OUTLINE_LENGTH);
const found = new Float64Array(2);

const deepestNotch = ({ notches }: Tub): number =>
  notches === undefined ? 0 : Math.max(0, ...notches.map(({ depth }) => depth));

/** Gap to the nearest of the hard points, and the hub angle of the outline's point that is nearest to it. */
function nearestHardPoint(points: readonly HardPointFan[], drop: number, forward: number): Gap {
  let nearest: Gap = { gap: Number.POSITIVE_INFINITY, angle: 0 };
  for (const fan of points) {
    const here = hardGapPlace(outline, fan, drop, forward, nearest.gap);
    if (here.gap < nearest.gap) nearest = here;
  }
  return nearest;
}

/**
 * Smallest gap of every run of a block over its moments, with its hub angle and moment, at each tub and height: that
 * of `clearanceState`; a hard point that is nearer than the tub counts as the gap.
 * @param table  with room for all tubs' heights times `capacity`, overwritten for the first `count` runs
 */
export function fillGaps(
  setup: ClearanceSetup,
  tyreSetup: TyreSetup,
  columns: RunColumns,
  axleHeights: Float64Array,
  count: number,
  places: readonly TubHeights[],
  table: GapTable,
): void {
  const { capacity } = table;
  const rows = places.reduce((sum, place) => sum + place.heights.length, 0);
  for (let run = 0; run < count; run++) {
    openRun(opened, run, tyreSetup, setup, columns);
    for (let row = 0; row < rows; row++) table.gap[row * capacity + run] = Number.POSITIVE_INFINITY;
    for (let m = 0; m < MOMENTS.length; m++) {
      const at = m * MOMENT_LENGTH;
      if (moments[at + HAPPENS]! === 0) continue;
      fillMomentOutline(tyre, inflated, tyreSetup, moments, at, setup.growthFactor, outline);
      fillOutlineGrid(outline, lobe);
      const drop = dropAtMoment(car, tyre[RIDE_CHANGE]!, moments[at + SPRING_FORCE]!, moments[at + MOVING]!);
      const forward = forwardAtMoment(car, drop, moments[at + THRUST_SHARE]!);
      const hard = nearestHardPoint(setup.hardPoints, drop, forward);
      const widest = outline[WIDEST]!;
      let row = 0;
      for (const { tub, heights } of places) {
        const nearest = tub.radius - deepestNotch(tub);
        const ahead = tub.centreForward + car[CENTRE_ERROR]! - forward;
        const base = car[TOP_ERROR]! - axleHeights[run]! - tub.radius - drop;
        for (const height of heights) {
          const place = row * capacity + run;
          row++;
          // No point of the outline is further from the tub's centre than this; where that leaves more, it is passed over.
          const above = base + height;
          const far = Math.sqrt(ahead * ahead + above * above) + widest;
          if (hard.gap < table.gap[place]!) {
            table.gap[place] = hard.gap;
            table.angle[place] = hard.angle;
            table.moment[place] = m;
          }
          if (nearest - far >= table.gap[place]!) continue;
          fillSmallestGap(outline, tub, ahead, above, table.gap[place]!, found);
          if (found[0]! >= table.gap[place]!) continue;
          table.gap[place] = found[0]!;
          table.angle[place] = found[1]!;
          table.moment[place] = m;
        }
      }
    }
  }
}

/** Shares of the closing: place (moment · shares + share) · capacity + run, m. NaN where the moment is not in the run. */
export interface ShareTable {
  capacity: number;
  /** SHARES in order, then the closing itself: SHARES.length + 1 rows a moment. */
  share: Float64Array;
}

/** Rows a moment takes in a ShareTable. */
export const SHARE_ROWS = SHARES.length + 1;

const shares = new Float64Array(SHARES.length);

/**
 * Shares of the closing of every run of a block, at every moment, in one tub at one height.
 * @param topHeight  m
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
    const standing = standingOutline(tyre, tyreSetup, tyre[COLD_PRESSURE_INPUT]!, buildLoad(car));
    const centre = tub.centreForward + car[CENTRE_ERROR]!;
    const base = topHeight + car[TOP_ERROR]! - axleHeights[run]! - tub.radius;
    // Springs that were reset for this tyre hold the body higher before anything moves.
    const restDrop = -tyre[RIDE_CHANGE]!;
    const restForward = forwardAtMoment(car, restDrop, 0);
    const rest = { ahead: centre - restForward, above: base - restDrop };
    fillSmallestGap(standing, tub, rest.ahead, rest.above, Number.POSITIVE_INFINITY, found);
    const staticSmallest = found[0]!;
    for (let m = 0; m < MOMENTS.length; m++) {
      const at = m * MOMENT_LENGTH;
      const row = m * SHARE_ROWS;
      if (moments[at + HAPPENS]! === 0) {
        for (let s = 0; s < SHARE_ROWS; s++) share[(row + s) * capacity + run] = Number.NaN;
        continue;
      }
      fillMomentOutline(tyre, inflated, tyreSetup, moments, at, setup.growthFactor, outline);
      fillOutlineGrid(outline, lobe);
      const drop = dropAtMoment(car, tyre[RIDE_CHANGE]!, moments[at + SPRING_FORCE]!, moments[at + MOVING]!);
      const bump = moments[at + MOVING]! * car[BUMP]!;
      const forward = forwardAtMoment(car, drop, moments[at + THRUST_SHARE]!);
      fillSmallestGap(outline, tub, centre - forward, base - drop, Number.POSITIVE_INFINITY, found);
      const angle = found[1]!;
      const free = inflated[moments[at + MOVING]! === 0 ? COLD_RADIUS : HOT_RADIUS]!;
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
          drop: drop - bump - restDrop,
          bump,
          forward: forward - restForward,
        },
        shares,
      );
      for (let s = 0; s < SHARES.length; s++) share[(row + s) * capacity + run] = shares[s]!;
      share[(row + SHARES.length) * capacity + run] = staticSmallest - gap;
    }
  }
}
