import { legEndSide, legReach, type Tub, wallDistance } from '../tub/profile.ts';
import { SHAPE_END } from '../tyre/band-shape.ts';
import {
  fillOutlineJet,
  GRID_HALF,
  GRID_STEP,
  outlineRadius,
  TABLE_X,
  TABLE_X_SLOPE,
  TABLE_Z,
  TABLE_Z_SLOPE,
  WIDEST,
} from '../tyre/outline.ts';
import { cubicPeak, cubicValue } from './cubic.ts';
import { AWAY, fillSeenEnd, type Gap, signedAtEnd, TOWARDS } from './gap.ts';
import { fillReach, type Reach } from './notch.ts';
import type { TubPlace } from './tub-place.ts';

/** What a cubic between two points of the table may miss of the distance, most of it where arc and leg meet, m. */
const MISSED = 5e-4;
const NEWTON_STEPS = 24;
/** A Newton step this small, rad, leaves an error of its third power. */
const SETTLED = 1e-6;

const jet = new Float64Array(3);
const end = new Float64Array(2);
/** A point of a curve, m from the arc's centre, with its first and second derivatives along the curve. */
const point = new Float64Array(6);
const X = 0;
const Z = 1;
const X_RATE = 2;
const Z_RATE = 3;
const X_BEND = 4;
const Z_BEND = 5;
/** Its distance from arc, leg or the leg's end, m, with the derivatives, and from which of them. */
const wall = new Float64Array(4);
const DISTANCE = 0;
const RATE = 1;
const BEND = 2;
const PART = 3;
const ARC = 0;
const LEG = 1;
const BEYOND = 2;
/** Half extent's sine and cosine, arc's centre ahead and above: of the search in hand. */
const seen = new Float64Array(4);
const SIN = 0;
const COS = 1;
const AHEAD = 2;
const ABOVE = 3;
/** The search's answer so far: m and rad. */
const least = new Float64Array(2);
const distances = new Float64Array(2 * GRID_HALF + 1);
const rates = new Float64Array(2 * GRID_HALF + 1);
const parts = new Uint8Array(2 * GRID_HALF + 1);
const reach: Reach = { reach: 0, angle: 0 };

function keepLesser(gap: number, angle: number): void {
  if (!(gap < least[0]!)) return;
  least[0] = gap;
  least[1] = angle;
}

/** Fills `wall` for the `point` in hand. */
function fillWall(tub: Tub): void {
  const x = point[X]!;
  const z = point[Z]!;
  const xRate = point[X_RATE]!;
  const zRate = point[Z_RATE]!;
  const sin = seen[SIN]!;
  const cos = seen[COS]!;
  const side = Math.abs(x);
  const along = side * cos - z * sin;
  if (along > 0 && along <= tub.legLength) {
    const out = x < 0 ? -sin : sin;
    wall[DISTANCE] = tub.radius - (side * sin + z * cos);
    wall[RATE] = -(out * xRate + cos * zRate);
    wall[BEND] = -(out * point[X_BEND]! + cos * point[Z_BEND]!);
    wall[PART] = LEG;
    return;
  }
  // On the arc the nearest of the wall lies on the ray from its centre, beyond a leg on the ray from the leg's end.
  const beyond = along > 0;
  const px = beyond ? (x < 0 ? -1 : 1) * (side - legEndSide(tub)) : x;
  const pz = beyond ? z + legReach(tub) : z;
  const way = beyond ? 1 : -1;
  const away = Math.sqrt(px * px + pz * pz);
  const rate = (px * xRate + pz * zRate) / away;
  const turn = xRate * xRate + zRate * zRate + px * point[X_BEND]! + pz * point[Z_BEND]! - rate * rate;
  wall[DISTANCE] = beyond ? away : tub.radius - away;
  wall[RATE] = way * rate;
  wall[BEND] = (way * turn) / away;
  wall[PART] = beyond ? BEYOND : ARC;
}

/** Newton on one valley of the distance along the outline; its lowest place so far is kept. */
function settleValley(outline: Float64Array, tub: Tub, start: number): void {
  let angle = start;
  for (let step = 0; step < NEWTON_STEPS; step++) {
    fillOutlineJet(outline, angle, jet);
    const r = jet[0]!;
    const slope = jet[1]!;
    const bend = jet[2]!;
    const sin = Math.sin(angle);
    const cos = Math.cos(angle);
    point[X] = r * sin - seen[AHEAD]!;
    point[Z] = r * cos - seen[ABOVE]!;
    point[X_RATE] = slope * sin + r * cos;
    point[Z_RATE] = slope * cos - r * sin;
    point[X_BEND] = bend * sin + 2 * slope * cos - r * sin;
    point[Z_BEND] = bend * cos - 2 * slope * sin - r * cos;
    fillWall(tub);
    keepLesser(wall[DISTANCE]!, angle);
    const rate = wall[RATE]!;
    const newton = wall[BEND]! > 0 ? -rate / wall[BEND]! : -Math.sign(rate) * 0.25 * GRID_STEP;
    // Between two walls Newton may go to and fro.
    const longest = (step < 8 ? 0.5 : 0.5 ** (step - 6)) * GRID_STEP;
    const next = angle + Math.max(-longest, Math.min(longest, newton));
    const taken = Math.max(-GRID_HALF * GRID_STEP, Math.min(GRID_HALF * GRID_STEP, next));
    if (Math.abs(taken - angle) < SETTLED) return;
    angle = taken;
  }
}

/** How far along a leg, m from where it begins, a point (x, z) from the axle stands. */
const alongLeg = (x: number, z: number): number =>
  Math.abs(x - seen[AHEAD]!) * seen[COS]! - (z - seen[ABOVE]!) * seen[SIN]!;

/**
 * Looks at the outline's points right over the end of the leg on one side, on its normal: there a tyre that has gone
 * through the leg stands furthest out, or a little higher.
 */
function keepOverEnd(outline: Float64Array, tub: Tub, way: number): void {
  const isBeside = (x: number, z: number): boolean => alongLeg(x, z) <= tub.legLength;
  for (let j = 1; j <= GRID_HALF; j++) {
    const k = GRID_HALF + way * j;
    const was = isBeside(outline[TABLE_X + k - way]!, outline[TABLE_Z + k - way]!);
    if (was === isBeside(outline[TABLE_X + k]!, outline[TABLE_Z + k]!)) continue;
    let beside = way * (was ? j - 1 : j) * GRID_STEP;
    let beyond = way * (was ? j : j - 1) * GRID_STEP;
    for (let step = 0; step < 40; step++) {
      const middle = 0.5 * (beside + beyond);
      const r = outlineRadius(outline, middle);
      if (isBeside(r * Math.sin(middle), r * Math.cos(middle))) beside = middle;
      else beyond = middle;
    }
    settleValley(outline, tub, beside);
  }
}

/** Distance of every point of the table from arc and legs, in `distances`, with its rise by one step in `rates`. */
function fillDistances(outline: Float64Array, tub: Tub): void {
  point[X_BEND] = 0;
  point[Z_BEND] = 0;
  for (let k = 0; k <= 2 * GRID_HALF; k++) {
    point[X] = outline[TABLE_X + k]! - seen[AHEAD]!;
    point[Z] = outline[TABLE_Z + k]! - seen[ABOVE]!;
    point[X_RATE] = outline[TABLE_X_SLOPE + k]!;
    point[Z_RATE] = outline[TABLE_Z_SLOPE + k]!;
    fillWall(tub);
    distances[k] = wall[DISTANCE]!;
    rates[k] = GRID_STEP * wall[RATE]!;
    parts[k] = wall[PART]!;
    keepLesser(wall[DISTANCE]!, (k - GRID_HALF) * GRID_STEP);
  }
}

/** Settles the valleys between points of the table that may be the deepest. */
function settleValleys(outline: Float64Array, tub: Tub): void {
  for (let k = 0; k < 2 * GRID_HALF; k++) {
    const left = distances[k]!;
    const right = distances[k + 1]!;
    const first = rates[k]!;
    const last = rates[k + 1]!;
    // No cubic falls below its ends by more than 4/27 of its slopes there.
    const fall = (4 / 27) * (Math.max(0, last) - Math.min(0, first));
    if (Math.min(left, right) - fall - MISSED >= least[0]!) continue;
    const t = cubicPeak(-first, -last, left - right);
    if (parts[k] === parts[k + 1]) {
      if (t < 0 || cubicValue(left, right, first, last, t) - MISSED >= least[0]!) continue;
    }
    settleValley(outline, tub, (k - GRID_HALF + Math.max(0, t)) * GRID_STEP);
  }
}

/** Looks at the ends of both legs: the outline's point in the end's own direction, and from there the nearest one. */
function keepLegEnds(outline: Float64Array, tub: Tub): void {
  const ahead = seen[AHEAD]!;
  const above = seen[ABOVE]!;
  for (let way = -1; way <= 1; way += 2) {
    fillSeenEnd(tub, ahead, above, way, end);
    const away = end[AWAY]!;
    const angle = end[TOWARDS]!;
    if (Math.abs(angle) >= outline[SHAPE_END]!) continue;
    const inTable = Math.abs(angle) <= GRID_HALF * GRID_STEP;
    // No point of the table is nearer to the end than this.
    if (inTable && away - outline[WIDEST]! >= least[0]!) continue;
    const radius = outlineRadius(outline, angle);
    const x = radius * Math.sin(angle) - ahead;
    const z = radius * Math.cos(angle) - above;
    keepLesser(signedAtEnd(wallDistance(tub, seen[SIN]!, seen[COS]!, x, z), radius, away), angle);
    if (radius > away) keepOverEnd(outline, tub, way);
    else if (inTable) settleValley(outline, tub, angle);
  }
}

/**
 * Smallest gap of an outline in a tub at one height over hub angles within ±120°: out[0] gap, m, as `tubGap` has it,
 * negative as well where the tyre holds the end of a leg; out[1] hub angle, rad. Between two points of the table runs a
 * cubic that finds each valley, Newton on the closed form settles it: within 10⁻⁶ m, and never less than a place that
 * it has seen. Source: derived.
 * @param ahead  arc's centre from the axle, m, as in TubPlace; `above` likewise
 * @param enough  m: a gap of at least this much is answered by any number of at least this much
 */
export function fillSmallestGap(
  outline: Float64Array,
  tub: Tub,
  ahead: number,
  above: number,
  enough: number,
  out: Float64Array,
): void {
  seen[SIN] = Math.sin(tub.halfExtent);
  seen[COS] = Math.cos(tub.halfExtent);
  seen[AHEAD] = ahead;
  seen[ABOVE] = above;
  least[0] = enough;
  least[1] = 0;
  if (tub.notches !== undefined) {
    for (const { angle, depth } of tub.notches) {
      fillReach(outline, angle, reach);
      const towards = outlineRadius(outline, reach.angle) * Math.cos(reach.angle - angle);
      const centre = ahead * Math.sin(angle) + above * Math.cos(angle);
      keepLesser(tub.radius - depth - (towards - centre), reach.angle);
    }
  }
  fillDistances(outline, tub);
  settleValleys(outline, tub);
  keepLegEnds(outline, tub);
  out[0] = least[0]!;
  out[1] = least[1]!;
}

const found = new Float64Array(2);

/** The same for one state. */
export function smallestGap(outline: Float64Array, tub: Tub, { ahead, above }: TubPlace): Gap {
  fillSmallestGap(outline, tub, ahead, above, Number.POSITIVE_INFINITY, found);
  return { gap: found[0]!, angle: found[1]! };
}
