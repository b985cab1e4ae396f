import type { Notch, Tub } from '../tub/profile.ts';
import {
  fillOutlineJet,
  GRID_HALF,
  GRID_STEP,
  TABLE_X,
  TABLE_X_SLOPE,
  TABLE_Z,
  TABLE_Z_SLOPE,
} from '../tyre/outline.ts';
import { cubicPeak, cubicValue } from './cubic.ts';

const jet = new Float64Array(3);

/** How far an outline reaches in one direction: `reach` m from the wheel centre, at a hub angle in rad. */
export interface Reach {
  reach: number;
  angle: number;
}

/** Table points on either side of the direction: 50° away the cosine hides any lobe. */
const SIDE = 5;
/** What a cubic between two points of the table may miss of a peak, m. */
const MISSED = 2e-4;
const NEWTON_STEPS = 8;
const SETTLED = 1e-5;

/** Newton on one peak of r(θ) cos(θ − ψ), kept if it is the furthest so far. */
function settleReach(outline: Float64Array, direction: number, start: number, out: Reach): void {
  let angle = start;
  for (let step = 0; step < NEWTON_STEPS; step++) {
    fillOutlineJet(outline, angle, jet);
    const r = jet[0]!;
    const away = angle - direction;
    const c = Math.cos(away);
    const s = Math.sin(away);
    const slope = jet[1]! * c - r * s;
    const curve = jet[2]! * c - 2 * jet[1]! * s - r * c;
    const newton = curve < 0 ? -slope / curve : Math.sign(slope) * 0.25 * GRID_STEP;
    const change = Math.max(-0.5 * GRID_STEP, Math.min(0.5 * GRID_STEP, newton));
    const reach = r * c + (Math.abs(change) < SETTLED ? 0.5 * slope * change : 0);
    if (reach > out.reach) {
      out.reach = reach;
      out.angle = angle;
    }
    if (Math.abs(change) < SETTLED) return;
    angle += change;
  }
}

/**
 * Fills how far the outline reaches in a direction, the largest r(θ) cos(θ − ψ). Between two points of the table runs a
 * cubic, so that a peak of the body and one of the lobe are both seen; Newton on the closed form settles each: within
 * 10⁻⁹ m.
 * @param direction  ψ from straight up, forward positive, rad, within ±75°
 */
export function fillReach(outline: Float64Array, direction: number, out: Reach): void {
  const sin = Math.sin(direction);
  const cos = Math.cos(direction);
  const middle = Math.round(direction / GRID_STEP) + GRID_HALF;
  const begin = Math.max(0, middle - SIDE);
  const end = Math.min(2 * GRID_HALF, middle + SIDE);
  out.reach = Number.NEGATIVE_INFINITY;
  for (let k = begin; k <= end; k++) {
    const here = outline[TABLE_X + k]! * sin + outline[TABLE_Z + k]! * cos;
    if (here > out.reach) {
      out.reach = here;
      out.angle = (k - GRID_HALF) * GRID_STEP;
    }
  }
  const most = out.reach - MISSED;
  let left = 0;
  let first = 0;
  for (let k = begin; k <= end; k++) {
    const right = outline[TABLE_X + k]! * sin + outline[TABLE_Z + k]! * cos;
    const last = GRID_STEP * (outline[TABLE_X_SLOPE + k]! * sin + outline[TABLE_Z_SLOPE + k]! * cos);
    if (k > begin) {
      const t = cubicPeak(first, last, right - left);
      if (t >= 0 && cubicValue(left, right, first, last, t) >= most) {
        settleReach(outline, direction, (k - 1 + t - GRID_HALF) * GRID_STEP, out);
      }
    }
    left = right;
    first = last;
  }
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
