import { legEndSide, legReach, type Tub, tubGap, wallDistance } from '../tub/profile.ts';
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
import { cubicPeak } from './cubic.ts';
import { fillReach, type Reach } from './notch.ts';

/** Gap and where it is. */
export interface Gap {
  /** Shortest distance from the outline to the tub, m; negative when the tyre is through it. */
  gap: number;
  /** Hub angle of the tight point, rad from straight up, forward positive. */
  angle: number;
}

/** Where a tub's arc is centred, seen from the axle at one moment. */
export interface TubPlace {
  /** Centre ahead of the axle, x_c − s_x, m. */
  ahead: number;
  /** Centre above the axle, crown height over the axle − T − u, m. */
  above: number;
}

/**
 * Shortest distance, m, from the outline's point at one hub angle to the tub, as a feeler measures it from there.
 * @param angle  rad, |θ| ≤ 120°
 */
export function gapAtAngle(outline: Float64Array, tub: Tub, place: TubPlace, angle: number): number {
  const r = outlineRadius(outline, angle);
  return tubGap(tub, r * Math.sin(angle) - place.ahead, r * Math.cos(angle) - place.above);
}

/** Where the end of one leg stands, seen from the hub: m away, and hub angle in rad. */
const end = new Float64Array(2);
const AWAY = 0;
const ANGLE = 1;

function fillEnd(tub: Tub, ahead: number, above: number, way: number): void {
  const x = ahead + way * legEndSide(tub);
  const z = above - legReach(tub);
  end[AWAY] = Math.sqrt(x * x + z * z);
  end[ANGLE] = Math.atan2(x, z);
}

/**
 * Gap at the hub angle of a leg's end. The tub's own distance has no sign for a point that has passed round that end:
 * whether the tyre holds the end says it, so that the gap is negative as soon as it does.
 * @param radius  of the outline at that hub angle, m
 * @param away  of the end from the hub, m
 */
const signedAtEnd = (gap: number, radius: number, away: number): number =>
  radius > away ? -Math.abs(gap) : gap;

/**
 * Gap of the tyre's point at a hub angle, m, for a tight place that may be the end of a leg.
 * @param radius  of the outline there, m
 */
export function tightGap(tub: Tub, radius: number, angle: number, ahead: number, above: number): number {
  const gap = tubGap(tub, radius * Math.sin(angle) - ahead, radius * Math.cos(angle) - above);
  fillEnd(tub, ahead, above, angle < 0 ? -1 : 1);
  return Math.abs(angle - end[ANGLE]!) < AT_END ? signedAtEnd(gap, radius, end[AWAY]!) : gap;
}

/** A hub angle this near to that of a leg's end is the end's own, rad. */
const AT_END = 1e-9;

/** What a cubic between two points of the table may miss of the distance, most of it where arc and leg meet, m. */
const MISSED = 1e-3;
const NEWTON_STEPS = 24;
/** A Newton step this small, rad, leaves an error of its third power. */
const SETTLED = 1e-6;

const jet = new Float64Array(3);
/** Distance of a point from arc, leg or the leg's end, m, and what it changes by along a curve: per rad and per rad². */
const wall = new Float64Array(3);
const DISTANCE = 0;
const RATE = 1;
const BEND = 2;
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
const reach: Reach = { reach: 0, angle: 0 };

function keepLesser(gap: number, angle: number): void {
  if (!(gap < least[0]!)) return;
  least[0] = gap;
  least[1] = angle;
}

/** Fills `wall` for a point (x, z) of a curve, m from the arc's centre, with its first and second derivatives. */
function fillWall(
  tub: Tub,
  x: number,
  z: number,
  xRate: number,
  zRate: number,
  xBend: number,
  zBend: number,
): void {
  const sin = seen[SIN]!;
  const cos = seen[COS]!;
  const side = Math.abs(x);
  const along = side * cos - z * sin;
  if (along > 0 && along <= tub.legLength) {
    const out = x < 0 ? -sin : sin;
    wall[DISTANCE] = tub.radius - (side * sin + z * cos);
    wall[RATE] = -(out * xRate + cos * zRate);
    wall[BEND] = -(out * xBend + cos * zBend);
    return;
  }
  // On the arc the nearest of the wall lies on the ray from its centre, beyond a leg on the ray from the leg's end.
  const beyond = along > 0;
  const px = beyond ? (x < 0 ? -1 : 1) * (side - legEndSide(tub)) : x;
  const pz = beyond ? z + legReach(tub) : z;
  const way = beyond ? 1 : -1;
  const away = Math.sqrt(px * px + pz * pz);
  const rate = (px * xRate + pz * zRate) / away;
  wall[DISTANCE] = beyond ? away : tub.radius - away;
  wall[RATE] = way * rate;
  wall[BEND] = (way * (xRate * xRate + zRate * zRate + px * xBend + pz * zBend - rate * rate)) / away;
}

/** Newton on one valley of the distance along the outline; its lowest place so far is kept. */
function settleValley(outline: Float64Array, tub: Tub, start: number): void {
  let angle = start;
  for (let step = 0; step < NEWTON_STEPS; step++) {
    fillOutlineJet(outline, angle, jet);
    const [r, slope, bend] = [jet[0]!, jet[1]!, jet[2]!];
    const sin = Math.sin(angle);
    const cos = Math.cos(angle);
    fillWall(
      tub,
      r * sin - seen[AHEAD]!,
      r * cos - seen[ABOVE]!,
      slope * sin + r * cos,
      slope * cos - r * sin,
      bend * sin + 2 * slope * cos - r * sin,
      bend * cos - 2 * slope * sin - r * cos,
    );
    keepLesser(wall[DISTANCE]!, angle);
    const newton = wall[BEND]! > 0 ? -wall[RATE]! / wall[BEND]! : -Math.sign(wall[RATE]!) * 0.25 * GRID_STEP;
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
  for (let k = 0; k <= 2 * GRID_HALF; k++) {
    fillWall(
      tub,
      outline[TABLE_X + k]! - seen[AHEAD]!,
      outline[TABLE_Z + k]! - seen[ABOVE]!,
      outline[TABLE_X_SLOPE + k]!,
      outline[TABLE_Z_SLOPE + k]!,
      0,
      0,
    );
    distances[k] = wall[DISTANCE]!;
    rates[k] = GRID_STEP * wall[RATE]!;
    keepLesser(distances[k]!, (k - GRID_HALF) * GRID_STEP);
  }
}

/** Looks at the ends of both legs: the outline's point in the end's own direction, and from there the nearest one. */
function keepLegEnds(outline: Float64Array, tub: Tub): void {
  const ahead = seen[AHEAD]!;
  const above = seen[ABOVE]!;
  // An end that stands further out than this is not what is nearest.
  if (legEndSide(tub) - Math.abs(ahead) - outline[WIDEST]! >= least[0]!) return;
  for (let way = -1; way <= 1; way += 2) {
    fillEnd(tub, ahead, above, way);
    const [away, angle] = [end[AWAY]!, end[ANGLE]!];
    if (Math.abs(angle) >= outline[SHAPE_END]!) continue;
    const radius = outlineRadius(outline, angle);
    const [x, z] = [radius * Math.sin(angle) - ahead, radius * Math.cos(angle) - above];
    keepLesser(signedAtEnd(wallDistance(tub, seen[SIN]!, seen[COS]!, x, z), radius, away), angle);
    if (radius > away) keepOverEnd(outline, tub, way);
    else if (Math.abs(angle) <= GRID_HALF * GRID_STEP) settleValley(outline, tub, angle);
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
  for (let k = 0; k < 2 * GRID_HALF; k++) {
    const [left, right, first, last] = [distances[k]!, distances[k + 1]!, rates[k]!, rates[k + 1]!];
    // No cubic falls below its ends by more than 4/27 of its slopes there.
    const fall = (4 / 27) * (Math.max(0, last) - Math.min(0, first));
    if (Math.min(left, right) - fall - MISSED >= least[0]!) continue;
    const t = cubicPeak(-first, -last, left - right);
    const angle = (k - GRID_HALF) * GRID_STEP;
    settleValley(outline, tub, angle + Math.max(0, t) * GRID_STEP);
  }
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
