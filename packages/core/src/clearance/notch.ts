import type { Notch, Tub } from '../tub/profile.ts';
import { fillOutlineJet, GRID_HALF, GRID_STEP, TABLE_X, TABLE_Z } from '../tyre/outline.ts';

const jet = new Float64Array(3);

/** How far an outline reaches in one direction: `reach` m from the wheel centre, at a hub angle in rad. */
export interface Reach {
  reach: number;
  angle: number;
}

/**
 * Fills how far the outline reaches in a direction, the largest r(θ) cos(θ − ψ): the table's best point, a parabola and
 * one Newton step on the closed form, within 10⁻⁷ m.
 * @param direction  ψ from straight up, forward positive, rad, within ±75°
 */
export function fillReach(outline: Float64Array, direction: number, out: Reach): void {
  const sin = Math.sin(direction);
  const cos = Math.cos(direction);
  const middle = Math.round(direction / GRID_STEP) + GRID_HALF;
  const first = Math.max(1, middle - 4);
  const last = Math.min(2 * GRID_HALF - 1, middle + 4);
  let best = first;
  let most = Number.NEGATIVE_INFINITY;
  for (let k = first; k <= last; k++) {
    const here = outline[TABLE_X + k]! * sin + outline[TABLE_Z + k]! * cos;
    if (here > most) {
      most = here;
      best = k;
    }
  }
  const left = outline[TABLE_X + best - 1]! * sin + outline[TABLE_Z + best - 1]! * cos;
  const right = outline[TABLE_X + best + 1]! * sin + outline[TABLE_Z + best + 1]! * cos;
  const bend = left - 2 * most + right;
  let angle = (best - GRID_HALF + (bend < 0 ? (0.5 * (left - right)) / bend : 0)) * GRID_STEP;
  for (let step = 0; step < 2; step++) {
    fillOutlineJet(outline, angle, jet);
    const r = jet[0]!;
    const away = angle - direction;
    const c = Math.cos(away);
    const s = Math.sin(away);
    const value = r * c;
    const slope = jet[1]! * c - r * s;
    const curve = jet[2]! * c - 2 * jet[1]! * s - r * c;
    const change = curve < 0 ? Math.max(-0.5 * GRID_STEP, Math.min(0.5 * GRID_STEP, -slope / curve)) : 0;
    out.reach = value + change * (slope + 0.5 * curve * change);
    angle += change;
  }
  out.angle = angle;
}

/**
 * How high the crown of a tub must stand above the axle for a notch to keep the reserve from what reaches towards it, m:
 * the flat is straight, so the answer is (reach − x sin ψ − (T − depth − reserve))/cos ψ + T.
 * @param reach  of the outline in the notch's direction, m
 * @param offset  centre of the arc ahead of the axle at the moment, m
 */
export function heightForNotch(
  tub: Tub,
  notch: Notch,
  reach: number,
  offset: number,
  reserve: number,
): number {
  const room = tub.radius - notch.depth - reserve;
  return tub.radius + (reach - offset * Math.sin(notch.angle) - room) / Math.cos(notch.angle);
}
