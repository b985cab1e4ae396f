import {
  fillOutlineJet,
  GRID_HALF,
  GRID_STEP,
  TABLE_X,
  TABLE_X_SLOPE,
  TABLE_Z_SLOPE,
} from '../tyre/outline.ts';
import { cubicPeak, cubicValue } from './cubic.ts';

/** What a cubic between two points of the table may miss of a peak, m. */
const MISSED = 2e-4;
/** From here back, 90° to the other side, an end that stands beyond the axle is sought. */
const BEHIND = -9;
const STEPS = 64;

/** Places in the answer of `fillLegEnd`. */
export const END_HEIGHT = 0; // m above the axle
export const END_ANGLE = 1; // rad

const jet = new Float64Array(3);
/** Of the outline's point in hand: reach to the side with the reserve, m, its derivative, and height with the reserve. */
const curve = new Float64Array(3);
const REACH = 0;
const SLOPE = 1;
const HEIGHT = 2;

/**
 * The curve that runs a reserve outside the outline, at the outline's point `out` rad outward on side `way`. It is
 * parallel to the outline: its slope is the outline's times 1 + reserve · curvature.
 */
function fillCurve(outline: Float64Array, reserve: number, way: number, out: number): void {
  const angle = way * out;
  fillOutlineJet(outline, angle, jet);
  const r = jet[0]!;
  const slope = jet[1]!;
  const bend = jet[2]!;
  const sin = Math.sin(angle);
  const cos = Math.cos(angle);
  const x = slope * sin + r * cos;
  const z = slope * cos - r * sin;
  const speed = Math.sqrt(x * x + z * z);
  const curvature =
    (z * (bend * sin + 2 * slope * cos - r * sin) - x * (bend * cos - 2 * slope * sin - r * cos)) /
    (speed * speed * speed);
  curve[REACH] = way * (r * sin - (reserve * z) / speed);
  curve[SLOPE] = x * (1 + reserve * curvature);
  curve[HEIGHT] = r * cos + (reserve * x) / speed;
}

/** Newton on the outline's widest place near a hub angle, all outward on side `way`: there its slope in x is nothing. */
function widestNear(outline: Float64Array, way: number, start: number): number {
  let out = start;
  for (let step = 0; step < 8; step++) {
    const angle = way * out;
    fillOutlineJet(outline, angle, jet);
    const sin = Math.sin(angle);
    const cos = Math.cos(angle);
    const slope = jet[1]! * sin + jet[0]! * cos;
    const bend = way * (jet[2]! * sin + 2 * jet[1]! * cos - jet[0]! * sin);
    if (!(bend < 0)) break;
    const change = Math.max(-0.5 * GRID_STEP, Math.min(0.5 * GRID_STEP, -slope / bend));
    out = Math.min(GRID_HALF * GRID_STEP, out + change);
    if (Math.abs(change) < 1e-9) break;
  }
  return out;
}

/** Where the curve first reaches `target`, between an angle that does not and one that does: Newton, kept between. */
function settleReach(
  outline: Float64Array,
  reserve: number,
  way: number,
  target: number,
  from: number,
  to: number,
  answer: Float64Array,
): void {
  let low = from;
  let high = to;
  let out = to;
  for (let step = 0; step < STEPS; step++) {
    fillCurve(outline, reserve, way, out);
    const miss = curve[REACH]! - target;
    if (miss < 0) low = out;
    else high = out;
    const next = out - miss / curve[SLOPE]!;
    const taken = next >= low && next <= high ? next : 0.5 * (low + high);
    const done = Math.abs(taken - out) < 1e-13;
    out = taken;
    if (done) break;
  }
  fillCurve(outline, reserve, way, out);
  answer[END_HEIGHT] = curve[HEIGHT]!;
  answer[END_ANGLE] = way * out;
}

/**
 * How high above the axle the end of a leg must stand for an outline to keep the reserve from it, and the hub angle that
 * decides it: where the curve that runs a reserve outside the outline first meets the end's upright line. −Infinity
 * where the outline is too narrow to meet it; Infinity where all of the outline lies beyond it.
 * Source: derived. The table finds the place, Newton on the closed form settles it: within 10⁻¹¹ m, at hub angles
 * within ±120°; below that no tyre is wider than above.
 * @param ahead  of the axle at the moment, m: where the leg's end stands
 * @param way  1 for the leg ahead, −1 for the one behind
 * @param reserve  m, ≥ 0
 * @param answer  2 numbers, overwritten
 */
export function fillLegEnd(
  outline: Float64Array,
  ahead: number,
  way: number,
  reserve: number,
  answer: Float64Array,
): void {
  const target = way * ahead;
  answer[END_HEIGHT] = Number.NEGATIVE_INFINITY;
  answer[END_ANGLE] = 0;
  fillCurve(outline, reserve, way, 0);
  const first = curve[REACH]! < target ? 0 : BEHIND;
  for (let j = first; j <= GRID_HALF; j++) {
    const k = GRID_HALF + way * j;
    const x = outline[TABLE_X_SLOPE + k]!;
    const z = outline[TABLE_Z_SLOPE + k]!;
    const here = way * (outline[TABLE_X + k]! - (reserve * z) / Math.sqrt(x * x + z * z));
    if (here >= target) {
      if (j === BEHIND) answer[END_HEIGHT] = Number.POSITIVE_INFINITY;
      else settleReach(outline, reserve, way, target, (j - 1) * GRID_STEP, j * GRID_STEP, answer);
      return;
    }
    if (j === first) continue;
    // Between two points that both fall short the outline may swell beyond them.
    const before = k - way;
    const left = way * outline[TABLE_X + before]!;
    const right = way * outline[TABLE_X + k]!;
    const rise = GRID_STEP * outline[TABLE_X_SLOPE + before]!;
    const last = GRID_STEP * x;
    const t = cubicPeak(rise, last, right - left);
    if (t < 0 || cubicValue(left, right, rise, last, t) + reserve < target - MISSED) continue;
    const widest = widestNear(outline, way, (j - 1 + t) * GRID_STEP);
    fillCurve(outline, reserve, way, widest);
    if (curve[REACH]! < target) continue;
    settleReach(outline, reserve, way, target, (j - 1) * GRID_STEP, widest, answer);
    return;
  }
}
