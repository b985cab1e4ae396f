import type { HardPoint, Tub } from '@tubgap/core';
import { line } from 'd3-shape';
import { shortNumber } from './markup.ts';

/** From metres in the axle frame (x ahead, z up) to the drawing's units. */
export interface View {
  /** Units a metre. */
  scale: number;
  x: (ahead: number) => number;
  y: (above: number) => number;
}

/** A view with the axle at a place of the drawing. */
export const viewAt = (scale: number, axleX: number, axleY: number): View => ({
  scale,
  x: (ahead) => axleX + scale * ahead,
  y: (above) => axleY - scale * above,
});

export type Point = readonly [x: number, y: number];

const polyline = line<Point>().digits(2);

/** Path of straight pieces through points of the drawing; closed when asked for. */
export const pathThrough = (points: readonly Point[], closed = false): string =>
  `${polyline(points) ?? ''}${closed ? 'Z' : ''}`;

/** Path of an outline given by radii at hub angles, open below. */
export const outlinePath = (view: View, angles: readonly number[], radii: readonly number[]): string =>
  pathThrough(angles.map((angle, k) => polar(view, radii[k]!, angle)));

/** Place in the drawing of a point at a radius in m and a hub angle in rad. */
export const polar = (view: View, radius: number, angle: number): Point => [
  view.x(radius * Math.sin(angle)),
  view.y(radius * Math.cos(angle)),
];

/** Between the outline's last angle and the track the tyre is drawn with the radius it has there, cut by the track. */
const BELOW_STEPS = 24;

/**
 * Closed path of a standing tyre: its outline as far as it is known, then on at its last radius down to the track.
 * @param axleHeight  m above the track
 */
export function standingPath(
  view: View,
  angles: readonly number[],
  radii: readonly number[],
  axleHeight: number,
): string {
  const points = angles.map((angle, k) => polar(view, radii[k]!, angle));
  const last = angles.length - 1;
  const end = angles[last]!;
  const turn = 2 * Math.PI - end + angles[0]!;
  for (let i = 1; i < BELOW_STEPS; i++) {
    const share = i / BELOW_STEPS;
    const angle = end + share * turn;
    const round = radii[last]! + share * (radii[0]! - radii[last]!);
    const down = -Math.cos(angle);
    const radius = down > 0 ? Math.min(round, axleHeight / down) : round;
    points.push(polar(view, radius, angle));
  }
  return pathThrough(points, true);
}

/** Path of a hard point moved back and down with the body, m. */
export function hardPointPath(view: View, point: HardPoint, back: number, down: number): string {
  if (point.shape === 'circle') {
    const r = shortNumber(view.scale * point.radius);
    const left = shortNumber(view.x(point.ahead - back - point.radius));
    const right = shortNumber(view.x(point.ahead - back + point.radius));
    const y = shortNumber(view.y(point.above - down));
    return `M${left},${y}A${r},${r},0,1,1,${right},${y}A${r},${r},0,1,1,${left},${y}Z`;
  }
  const corners: Point[] = [];
  for (let i = 0; i < point.xy.length; i += 2) {
    corners.push([view.x(point.xy[i]! - back), view.y(point.xy[i + 1]! - down)]);
  }
  return pathThrough(corners, true);
}

/**
 * Foot on a tub's inside surface of the shortest way from a point, both in m from the axle.
 * Beyond the legs' ends it is the end.
 */
export function footOnTub(
  tub: Tub,
  centre: { ahead: number; above: number },
  x: number,
  z: number,
): { x: number; z: number } {
  const ahead = x - centre.ahead;
  const above = z - centre.above;
  const side = Math.sign(ahead) || 1;
  const sin = Math.sin(tub.halfExtent);
  const cos = Math.cos(tub.halfExtent);
  const past = Math.abs(ahead) * cos - above * sin;
  const far = Math.hypot(ahead, above);
  let nearest: number;
  let foot: { x: number; z: number };
  if (past > 0) {
    const along = Math.min(past, tub.legLength);
    foot = {
      x: centre.ahead + side * (tub.radius * sin + along * cos),
      z: centre.above + tub.radius * cos - along * sin,
    };
    nearest = Math.hypot(foot.x - x, foot.z - z);
  } else {
    // From the centre itself every way is as short; straight up is as good as any.
    const [across, up] = far === 0 ? [0, 1] : [ahead / far, above / far];
    nearest = tub.radius - far;
    foot = { x: centre.ahead + across * tub.radius, z: centre.above + up * tub.radius };
  }
  for (const { angle, depth } of tub.notches ?? []) {
    const gap = tub.radius - depth - (ahead * Math.sin(angle) + above * Math.cos(angle));
    if (gap >= nearest) continue;
    nearest = gap;
    foot = { x: x + gap * Math.sin(angle), z: z + gap * Math.cos(angle) };
  }
  return foot;
}

/** Radius at an angle on the straight piece between the two nearest of the rising angles, m. */
export function radiusBetween(angles: readonly number[], radii: readonly number[], angle: number): number {
  const after = Math.max(
    1,
    angles.findIndex((own) => own >= angle),
  );
  const share = (angle - angles[after - 1]!) / (angles[after]! - angles[after - 1]!);
  return radii[after - 1]! + share * (radii[after]! - radii[after - 1]!);
}
