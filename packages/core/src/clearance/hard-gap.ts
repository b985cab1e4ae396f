import { type HardPoint, hardPointAngles, hardPointGap } from '../tub/hardpoint.ts';
import { GRID_HALF, GRID_STEP, largestRadius, outlineRadius } from '../tyre/outline.ts';

/** A hard point with the fan of hub angles in which the outline can be nearest to it. */
export interface HardPointFan {
  point: HardPoint;
  low: number;
  high: number;
}

const STEP = (2.5 * Math.PI) / 180;
const MARGIN = (20 * Math.PI) / 180;
const END = GRID_HALF * GRID_STEP;

/** Prepares a hard point for `hardGap`: the fan reaches 20° beyond its corners, for the travel of body and axle. */
export function hardPointFan(point: HardPoint): HardPointFan {
  const { low, high } = hardPointAngles(point);
  return { point, low: Math.max(-END, low - MARGIN), high: Math.min(END, high + MARGIN) };
}

/**
 * Shortest distance, m, from an outline to a hard point; negative when the tyre is in it. The body has dropped by
 * `drop` and the axle moved forward by `forward`, so the point stands that much lower and further back.
 * @param enough  stop early when even the largest radius of the fan stays at least this far away: then Infinity is returned
 */
export function hardGap(
  outline: Float64Array,
  fan: HardPointFan,
  drop: number,
  forward: number,
  enough: number,
): number {
  const largest = largestRadius(
    outline,
    Math.floor(fan.low / GRID_STEP) + GRID_HALF,
    Math.ceil(fan.high / GRID_STEP) + GRID_HALF,
  );
  if (hardPointGap(fan.point, forward, drop) - largest > enough) return Number.POSITIVE_INFINITY;
  let before = Number.POSITIVE_INFINITY;
  let here = Number.POSITIVE_INFINITY;
  let least = Number.POSITIVE_INFINITY;
  for (let angle = fan.low; angle <= fan.high + STEP; angle += STEP) {
    const r = outlineRadius(outline, angle);
    const next = hardPointGap(fan.point, r * Math.sin(angle) + forward, r * Math.cos(angle) + drop);
    if (here <= before && here <= next && Number.isFinite(before)) {
      const bend = before - 2 * here + next;
      const dip = bend > 0 ? ((next - before) * (next - before)) / (8 * bend) : 0;
      least = Math.min(least, here - dip);
    }
    least = Math.min(least, next);
    before = here;
    here = next;
  }
  return least;
}
