import { LARGEST_PATCH } from '../tyre/patch.ts';

/** Something fixed to the car that takes room away, in side view, from the axle at rest: m ahead and m above. */
export type HardPoint =
  | { shape: 'circle'; ahead: number; above: number; radius: number }
  /** Convex, corners in order, xy = [ahead, above, ahead, above, …]. */
  | { shape: 'polygon'; xy: Float64Array };

/**
 * Signed distance, m, from a point to a hard point: negative inside it.
 * @param x  m ahead of the axle as it stood at rest
 * @param z  m above it
 */
export function hardPointGap(point: HardPoint, x: number, z: number): number {
  if (point.shape === 'circle') return Math.hypot(x - point.ahead, z - point.above) - point.radius;
  const { xy } = point;
  const count = xy.length / 2;
  let nearest = Number.POSITIVE_INFINITY;
  let inside = true;
  let turn = 0;
  for (let i = 0; i < count; i++) {
    const j = (i + 1) % count;
    const ax = xy[2 * i]!;
    const az = xy[2 * i + 1]!;
    const ex = xy[2 * j]! - ax;
    const ez = xy[2 * j + 1]! - az;
    const px = x - ax;
    const pz = z - az;
    const cross = ex * pz - ez * px;
    if (turn === 0) turn = Math.sign(cross);
    else if (cross !== 0 && Math.sign(cross) !== turn) inside = false;
    const along = Math.max(0, Math.min(1, (px * ex + pz * ez) / (ex * ex + ez * ez)));
    nearest = Math.min(nearest, Math.hypot(px - along * ex, pz - along * ez));
  }
  return inside ? -nearest : nearest;
}

/** Smallest and largest hub angle of a hard point's corners (a circle: its tangents), rad. */
export function hardPointAngles(point: HardPoint): { low: number; high: number } {
  if (point.shape === 'circle') {
    const middle = Math.atan2(point.ahead, point.above);
    const half = Math.asin(Math.min(1, point.radius / Math.hypot(point.ahead, point.above)));
    return { low: middle - half, high: middle + half };
  }
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < point.xy.length; i += 2) {
    const angle = Math.atan2(point.xy[i]!, point.xy[i + 1]!);
    low = Math.min(low, angle);
    high = Math.max(high, angle);
  }
  return { low, high };
}

/**
 * Hub angle, rad, beyond which a hard point stands under the tyre: there the largest contact patch that the model takes
 * may already carry it.
 */
export const UNDER_TYRE = Math.PI - LARGEST_PATCH;

/** Whether some of a hard point stands lower than the outline of every tyre can be followed. Polygons must be convex. */
export function standsUnderTyre(point: HardPoint): boolean {
  const { low, high } = hardPointAngles(point);
  if (low < -UNDER_TYRE || high > UNDER_TYRE) return true;
  if (point.shape === 'circle') return false;
  // An edge that crosses from one side to the other below the axle.
  const { xy } = point;
  for (let i = 0; i < xy.length; i += 2) {
    const j = (i + 2) % xy.length;
    const ahead = xy[i]!;
    const next = xy[j]!;
    if (ahead * next >= 0) continue;
    const above = xy[i + 1]! + ((xy[j + 1]! - xy[i + 1]!) * ahead) / (ahead - next);
    if (above < 0) return true;
  }
  return false;
}
