import { MOMENTS } from '../car/moments.ts';
import { buildLoad } from '../car/stance.ts';
import { gapAtAngle } from '../clearance/gap.ts';
import { builtTubFromAxle } from '../clearance/tub-place.ts';
import { tyreColumn } from '../inputs.ts';
import type { ClearanceSetup } from '../kernel.ts';
import { standingOutline } from '../standing.ts';
import { type Tub, wallDistance } from '../tub/profile.ts';
import { bandDisplacement } from '../tyre/band-shape.ts';
import type { TyreSetup } from '../tyre/inflated.ts';
import { lobeAllowance } from '../tyre/lobe.ts';
import { BASE } from '../tyre/outline.ts';
import { bodyAtRest, createOpenedRun, openMoment, openRun, type RunColumns } from './opened-run.ts';

/** Numbers of every run of a block at fixed hub angles: place angle · capacity + run. */
export interface AngleTable {
  capacity: number;
  /** Hub angles, rad from straight up, forward positive, |θ| ≤ 120°; at most 241. */
  angles: Float64Array;
  /** m */
  values: Float64Array;
}

/** A tub at one height, and the tables that its gaps go into. */
export interface AngleGaps {
  tub: Tub;
  /** m above the track with the build tyre. */
  topHeight: number;
  /** Gap standing still on this tyre: its ride-height change made, its own pressure, the load of the build, m. */
  atRest: AngleTable;
  /** Smallest gap over the moments of the run, before the reserve is taken off, m. */
  inRun: AngleTable;
}

/** Angles that a table may have. */
const MOST_ANGLES = 241;

const LOBE_HEIGHT = tyreColumn('lobeHeight');
const LOBE_ANGLE = tyreColumn('lobeAngle');
const COLD_PRESSURE = tyreColumn('coldPressure');

const opened = createOpenedRun();
const { car, tyre, outline } = opened;
/** Lobe and radius at the angles in hand, of the run and of the moment. */
const lobe = new Float64Array(MOST_ANGLES);
const moment = new Float64Array(MOST_ANGLES);

/**
 * Largest radius of the outline at each hub angle over the moments of each run, m, in the axle frame: the shape that
 * the tyre of that run never leaves. It may come from another moment at every angle. Where a tub is given, the gap
 * from the outline's point at each hub angle to it as well, standing still and at its smallest over the moments; hard
 * points are not looked at.
 * @param axleHeights  static loaded radius of each run with the build tyre, m
 * @param radii  overwritten for the first `count` runs, as are the tables of `gaps`; all at the same angles
 */
export function fillAngles(
  setup: ClearanceSetup,
  tyreSetup: TyreSetup,
  columns: RunColumns,
  axleHeights: Float64Array,
  count: number,
  radii: AngleTable,
  gaps: AngleGaps | undefined,
): void {
  const { capacity, angles, values } = radii;
  const sines = angles.map(Math.sin);
  const cosines = angles.map(Math.cos);
  const last = angles.length;
  for (let run = 0; run < count; run++) {
    openRun(opened, run, tyreSetup, setup, columns);
    for (let k = 0; k < last; k++) {
      values[k * capacity + run] = 0;
      lobe[k] = lobeAllowance(angles[k]!, tyre[LOBE_HEIGHT]!, tyre[LOBE_ANGLE]!);
    }
    if (gaps !== undefined) fillGapsAtRest(tyreSetup, axleHeights[run]!, run, gaps);
    for (let m = 0; m < MOMENTS.length; m++) {
      const body = openMoment(opened, m, tyreSetup, setup);
      if (body === undefined) continue;
      for (let k = 0; k < last; k++) {
        const radius = outline[BASE]! + bandDisplacement(outline, angles[k]!) + lobe[k]!;
        moment[k] = radius;
        if (radius > values[k * capacity + run]!) values[k * capacity + run] = radius;
      }
      if (gaps === undefined) continue;
      const { tub, topHeight, inRun } = gaps;
      const { ahead, above } = builtTubFromAxle(car, tub, topHeight, axleHeights[run]!, body);
      const sin = Math.sin(tub.halfExtent);
      const cos = Math.cos(tub.halfExtent);
      for (let k = 0; k < last; k++) {
        const gap = wallDistance(
          tub,
          sin,
          cos,
          moment[k]! * sines[k]! - ahead,
          moment[k]! * cosines[k]! - above,
        );
        const cell = k * inRun.capacity + run;
        if (gap < inRun.values[cell]!) inRun.values[cell] = gap;
      }
    }
  }
}

/** Gaps of the standing car of an opened run; clears those of its moments. */
function fillGapsAtRest(tyreSetup: TyreSetup, axleHeight: number, run: number, gaps: AngleGaps): void {
  const { tub, topHeight, atRest, inRun } = gaps;
  const standing = standingOutline(tyre, tyreSetup, tyre[COLD_PRESSURE]!, buildLoad(car));
  const place = builtTubFromAxle(car, tub, topHeight, axleHeight, bodyAtRest(car, tyre));
  for (let k = 0; k < atRest.angles.length; k++) {
    atRest.values[k * atRest.capacity + run] = gapAtAngle(standing, tub, place, atRest.angles[k]!);
    inRun.values[k * inRun.capacity + run] = Number.POSITIVE_INFINITY;
  }
}
