import { type HardPoint, hardPointAngles, hardPointGap, standsUnderTyre } from '../tub/hardpoint.ts';
import { SHAPE_END } from '../tyre/band-shape.ts';
import { GRID_HALF, GRID_STEP, largestRadius, outlineRadius } from '../tyre/outline.ts';
import type { Gap } from './gap.ts';

/** A hard point with the fan of hub angles in which the outline can be nearest to it. */
export interface HardPointFan {
  point: HardPoint;
  low: number;
  high: number;
  /**
   * From the axle to the point with the body at rest, m: no outline of a smaller radius comes near. Nothing where the
   * fan reaches below the outline's table, whose radii then bound nothing.
   */
  distance: number;
}

const STEP = (2.5 * Math.PI) / 180;
const MARGIN = (20 * Math.PI) / 180;
/** End of the outline's table. */
const TABLE_END = GRID_HALF * GRID_STEP;
const CLOSE = 1e-4;
const GOLDEN = 0.5 * (Math.sqrt(5) - 1);

/**
 * Prepares a hard point for `hardGap`: the fan reaches 20° beyond its corners, for the travel of body and axle.
 * @throws RangeError when the point stands under the tyre, where the contact patch ends the outline
 */
export function hardPointFan(point: HardPoint): HardPointFan {
  if (standsUnderTyre(point)) throw new RangeError('a hard point under the tyre has no outline beside it');
  const corners = hardPointAngles(point);
  const low = corners.low - MARGIN;
  const high = corners.high + MARGIN;
  const inTable = low >= -TABLE_END && high <= TABLE_END;
  return { point, low, high, distance: inTable ? hardPointGap(point, 0, 0) : 0 };
}

/** Best so far of a search: gap in m, and the hub angle in rad of the outline's point that is nearest. */
const found = new Float64Array(2);

function keepLesser(gap: number, angle: number): void {
  if (gap >= found[0]!) return;
  found[0] = gap;
  found[1] = angle;
}

/**
 * Looks along the radii through a hard point's corners (a circle: through its centre). Never less than the shortest
 * distance while the point is outside the tyre, and negative when the tyre has swallowed it whole.
 */
function keepRadialGaps(outline: Float64Array, point: HardPoint, drop: number, forward: number): void {
  if (point.shape === 'circle') {
    keepCornerGap(outline, point.ahead - forward, point.above - drop, point.radius);
    return;
  }
  for (let i = 0; i < point.xy.length; i += 2) {
    keepCornerGap(outline, point.xy[i]! - forward, point.xy[i + 1]! - drop, 0);
  }
}

function keepCornerGap(outline: Float64Array, ahead: number, above: number, radius: number): void {
  // Lower than the patch begins the tyre is flat and no wider than there: its radius at that end is on the safe side.
  const end = outline[SHAPE_END]!;
  const angle = Math.max(-end, Math.min(end, Math.atan2(ahead, above)));
  keepLesser(Math.sqrt(ahead * ahead + above * above) - outlineRadius(outline, angle) - radius, angle);
}

/** Distance from the outline's point at a hub angle to a hard point, m. */
function curveGap(
  outline: Float64Array,
  point: HardPoint,
  drop: number,
  forward: number,
  angle: number,
): number {
  const r = outlineRadius(outline, angle);
  return hardPointGap(point, r * Math.sin(angle) + forward, r * Math.cos(angle) + drop);
}

/** Looks between two hub angles by golden section: near a corner the distance has a kink that no parabola fits. */
function keepValley(
  outline: Float64Array,
  point: HardPoint,
  drop: number,
  forward: number,
  from: number,
  to: number,
): void {
  let low = from;
  let high = to;
  let left = high - GOLDEN * (high - low);
  let right = low + GOLDEN * (high - low);
  let gapLeft = curveGap(outline, point, drop, forward, left);
  let gapRight = curveGap(outline, point, drop, forward, right);
  while (high - low > CLOSE) {
    if (gapLeft < gapRight) {
      high = right;
      right = left;
      gapRight = gapLeft;
      left = high - GOLDEN * (high - low);
      gapLeft = curveGap(outline, point, drop, forward, left);
    } else {
      low = left;
      left = right;
      gapLeft = gapRight;
      right = low + GOLDEN * (high - low);
      gapRight = curveGap(outline, point, drop, forward, right);
    }
  }
  keepLesser(gapLeft, left);
  keepLesser(gapRight, right);
}

/** Whether even the largest radius of a fan that lies within the table stays `enough` away. */
function staysAway(
  outline: Float64Array,
  { point, low, high, distance }: HardPointFan,
  drop: number,
  forward: number,
  enough: number,
): boolean {
  if (distance === 0) return false;
  const first = Math.floor(low / GRID_STEP) + GRID_HALF;
  const largest = largestRadius(outline, first, Math.ceil(high / GRID_STEP) + GRID_HALF);
  return hardPointGap(point, forward, drop) - largest > enough;
}

/**
 * Shortest distance, m, from an outline to a hard point; negative when the tyre reaches into it or over it. The body
 * has dropped by `drop` and the axle moved forward by `forward`, so the point stands that much lower and further back.
 * The outline is followed down to where its contact patch begins.
 * @param enough  stop early when even the largest radius of the fan stays at least this far away: then Infinity is returned
 */
export function hardGap(
  outline: Float64Array,
  fan: HardPointFan,
  drop: number,
  forward: number,
  enough: number,
): number {
  found[0] = Number.POSITIVE_INFINITY;
  if (staysAway(outline, fan, drop, forward, enough)) return Number.POSITIVE_INFINITY;
  const end = outline[SHAPE_END]!;
  const high = Math.min(end, fan.high);
  let before = Number.POSITIVE_INFINITY;
  let here = Number.POSITIVE_INFINITY;
  keepRadialGaps(outline, fan.point, drop, forward);
  for (let angle = Math.max(-end, fan.low); angle <= high + STEP; angle += STEP) {
    const at = Math.min(angle, end);
    const next = curveGap(outline, fan.point, drop, forward, at);
    if (here <= before && here <= next && Number.isFinite(before)) {
      keepValley(outline, fan.point, drop, forward, at - 2 * STEP, at);
    }
    keepLesser(next, at);
    before = here;
    here = next;
  }
  return found[0]!;
}

/** The same with the hub angle of the outline's point that is nearest; Infinity when nothing comes within `enough`. */
export function hardGapPlace(
  outline: Float64Array,
  fan: HardPointFan,
  drop: number,
  forward: number,
  enough = Number.POSITIVE_INFINITY,
): Gap {
  const gap = hardGap(outline, fan, drop, forward, enough);
  return { gap, angle: found[1]! };
}
