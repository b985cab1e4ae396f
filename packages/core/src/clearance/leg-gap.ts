import type { Tub } from '../tub/profile.ts';
import { GRID_COUNT, GRID_HALF, GRID_STEP, outlineRadius, TABLE_X, TABLE_Z } from '../tyre/outline.ts';

/** Legs are looked at from 60° on either side of straight up; nearer the top the arc is nearer. */
const LEG_FIRST = 6;

/** Reach of the table's point k towards a wall on its own side, m. */
const sideReach = (outline: Float64Array, k: number, offset: number): number => {
  const x = outline[TABLE_X + k]! - offset;
  return k < GRID_HALF ? -x : x;
};

/** Reach, towards a wall on its side, of the outline where it passes the height `floor` below table point k, m. */
function reachAtFloor(outline: Float64Array, k: number, offset: number, floor: number): number {
  const below = k < GRID_HALF ? k - 1 : k + 1;
  if (below < 0 || below >= GRID_COUNT) return Number.NEGATIVE_INFINITY;
  const high = outline[TABLE_Z + k]!;
  const low = outline[TABLE_Z + below]!;
  if (low >= floor) return Number.NEGATIVE_INFINITY;
  const angle = (k - GRID_HALF + ((below - k) * (high - floor)) / (high - low)) * GRID_STEP;
  const x = outlineRadius(outline, angle) * Math.sin(angle) - offset;
  return k < GRID_HALF ? -x : x;
}

/**
 * Smallest gap of the outline to the vertical walls x = offset ± T above `floor`, m: a parabola through the table, and
 * the place where the wall ends. Infinity when the walls end above all of it.
 * @param offset  centre of the arc ahead of the axle at the moment, m
 * @param floor  lowest place of the walls, m above the axle at the moment
 */
export function wallGap(outline: Float64Array, tub: Tub, offset: number, floor: number): number {
  let reach = Number.NEGATIVE_INFINITY;
  for (let k = 0; k < GRID_COUNT; k++) {
    if (Math.abs(k - GRID_HALF) < LEG_FIRST) continue;
    if (outline[TABLE_Z + k]! < floor) continue;
    reach = Math.max(reach, reachAtFloor(outline, k, offset, floor));
    const here = sideReach(outline, k, offset);
    if (here <= reach) continue;
    reach = here;
    if (k === 0 || k === GRID_COUNT - 1) continue;
    const before = sideReach(outline, k - 1, offset);
    const after = sideReach(outline, k + 1, offset);
    const bend = before - 2 * here + after;
    if (before <= here && after <= here && bend < 0) reach = here - (after - before) ** 2 / (8 * bend);
  }
  return tub.radius - reach;
}
