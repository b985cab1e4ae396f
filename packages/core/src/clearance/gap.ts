import { legEndSide, legReach, type Tub, tubGap } from '../tub/profile.ts';
import { outlineRadius } from '../tyre/outline.ts';
import type { TubPlace } from './tub-place.ts';

/** Gap and where it is. */
export interface Gap {
  /** Shortest distance from the outline to the tub, m; negative when the tyre is through it. */
  gap: number;
  /** Hub angle of the tight point, rad from straight up, forward positive. */
  angle: number;
}

/**
 * Shortest distance, m, from the outline's point at one hub angle to the tub, as a feeler measures it from there.
 * @param angle  rad, |θ| ≤ 120°
 */
export function gapAtAngle(outline: Float64Array, tub: Tub, place: TubPlace, angle: number): number {
  const r = outlineRadius(outline, angle);
  return tubGap(tub, r * Math.sin(angle) - place.ahead, r * Math.cos(angle) - place.above);
}

/** Places of a leg's end in what `fillSeenEnd` fills. */
export const AWAY = 0; // m from the hub
export const TOWARDS = 1; // hub angle, rad

/** Where the end of one leg stands, seen from the hub; `way` 1 for the leg ahead, −1 for the one behind. */
export function fillSeenEnd(tub: Tub, ahead: number, above: number, way: number, end: Float64Array): void {
  const x = ahead + way * legEndSide(tub);
  const z = above - legReach(tub);
  end[AWAY] = Math.sqrt(x * x + z * z);
  end[TOWARDS] = Math.atan2(x, z);
}

/**
 * Gap at the hub angle of a leg's end. The tub's own distance has no sign for a point that has passed round that end:
 * whether the tyre holds the end says it, so that the gap is negative as soon as it does.
 * @param radius  of the outline at that hub angle, m
 * @param away  of the end from the hub, m
 */
export const signedAtEnd = (gap: number, radius: number, away: number): number =>
  radius > away ? -Math.abs(gap) : gap;

/** A hub angle this near to that of a leg's end is the end's own, rad. */
const AT_END = 1e-9;

const end = new Float64Array(2);

/**
 * Gap of the tyre's point at a hub angle, m, for a tight place that may be the end of a leg.
 * @param radius  of the outline there, m
 */
export function tightGap(tub: Tub, radius: number, angle: number, ahead: number, above: number): number {
  const gap = tubGap(tub, radius * Math.sin(angle) - ahead, radius * Math.cos(angle) - above);
  fillSeenEnd(tub, ahead, above, angle < 0 ? -1 : 1, end);
  return Math.abs(angle - end[TOWARDS]!) < AT_END ? signedAtEnd(gap, radius, end[AWAY]!) : gap;
}
