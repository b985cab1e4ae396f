import { ceilingAbove, type Tub } from '../tub/profile.ts';
import {
  fillOutlineJet,
  GRID,
  GRID_COS,
  GRID_HALF,
  GRID_SIN,
  GRID_STEP,
  outlineRadius,
} from '../tyre/outline.ts';

/** Places in the answer of `fillRequiredHeight`. */
export const NEEDED = 0; // m, crown above the axle that keeps the reserve, body where it is at the moment
export const NEEDED_ANGLE = 1; // rad, hub angle that decides it
export const NEEDED_CONTACT = 2; // m, the same for reserve 0
export const NEEDED_LENGTH = 3;

/** The search looks ±100° from straight up; beside and below that a leg decides. */
const REACH = 10;
const FIRST = GRID_HALF - REACH;
const LAST = GRID_HALF + REACH;
const END = REACH * GRID_STEP;

/** Peaks of the table that come within this of the best are searched too, m. */
const NEAR_TIE = 2e-4;
/** A Newton step shorter than this, rad, leaves less than 10⁻⁶ m. */
const CLOSE = 0.01;
const NEWTON_STEPS = 4;
/** Where the tyre comes this near to the tub's wall, over its radius, the rise is too sharp for table and Newton. */
const NEAR_WALL = 0.95;
/** As far as one Newton step, rad, may lead from the deciding angle of one reserve to that of another. */
const FAR = 0.02;
const COMB_STEP = Math.PI / 180;
const COMB_CLOSE = 1e-6;
const GOLDEN = 0.5 * (Math.sqrt(5) - 1);

const rise = new Float64Array(2 * GRID_HALF + 1);
const jet = new Float64Array(3);
const contact = new Float64Array(NEEDED_LENGTH);

/** Height of a peak through three neighbouring points of the table. */
function peakHeight(left: number, top: number, right: number): number {
  const bend = left - 2 * top + right;
  if (!(bend < 0)) return top;
  const lean = right - left;
  return top - (lean * lean) / (8 * bend);
}

/** Offset of that peak from the middle point, in steps of the table. */
function peakOffset(left: number, top: number, right: number): number {
  const bend = left - 2 * top + right;
  if (!(bend < 0)) return 0;
  return (0.5 * (left - right)) / bend;
}

/** How high the arc's crown less its radius must stand for one point of the outline, m. */
function riseAt(outline: Float64Array, tub: Tub, offset: number, reserve: number, angle: number): number {
  const r = outlineRadius(outline, angle);
  return r * Math.cos(angle) - ceilingAbove(tub, r * Math.sin(angle) - offset, reserve);
}

function offer(height: number, angle: number, answer: Float64Array): void {
  if (height <= answer[NEEDED]!) return;
  answer[NEEDED] = height;
  answer[NEEDED_ANGLE] = angle;
}

/** Every peak between two hub angles, by a comb of 1° and golden section: slow, for what Newton does not settle. */
function comb(
  outline: Float64Array,
  tub: Tub,
  offset: number,
  reserve: number,
  from: number,
  to: number,
  answer: Float64Array,
): void {
  const low = Math.max(-END, from);
  const high = Math.min(END, to);
  const count = Math.max(2, Math.ceil((high - low) / COMB_STEP));
  const step = (high - low) / count;
  let before = Number.NEGATIVE_INFINITY;
  let here = riseAt(outline, tub, offset, reserve, low);
  for (let k = 0; k <= count; k++) {
    const angle = low + k * step;
    const next = k === count ? Number.NEGATIVE_INFINITY : riseAt(outline, tub, offset, reserve, angle + step);
    offer(here, angle, answer);
    const promising = here + Math.max(here - before, here - next, 0) > answer[NEEDED]!;
    if (promising && here >= before && here >= next && Number.isFinite(here)) {
      let left = Math.max(low, angle - step);
      let right = Math.min(high, angle + step);
      let inner = right - GOLDEN * (right - left);
      let outer = left + GOLDEN * (right - left);
      let innerRise = riseAt(outline, tub, offset, reserve, inner);
      let outerRise = riseAt(outline, tub, offset, reserve, outer);
      while (right - left > COMB_CLOSE) {
        if (innerRise > outerRise) {
          right = outer;
          outer = inner;
          outerRise = innerRise;
          inner = right - GOLDEN * (right - left);
          innerRise = riseAt(outline, tub, offset, reserve, inner);
        } else {
          left = inner;
          inner = outer;
          innerRise = outerRise;
          outer = left + GOLDEN * (right - left);
          outerRise = riseAt(outline, tub, offset, reserve, outer);
        }
      }
      offer(Math.max(innerRise, outerRise), 0.5 * (left + right), answer);
    }
    before = here;
    here = next;
  }
}

/**
 * Newton from `start` on one peak of the arc; offers what it finds. Where it does not settle on a peak of the arc, a
 * comb does.
 * @returns whether the height for reserve 0 was found on the way
 */
function climb(
  outline: Float64Array,
  tub: Tub,
  offset: number,
  reserve: number,
  start: number,
  answer: Float64Array,
): boolean {
  const radius = tub.radius - reserve;
  const arcSide = radius * Math.sin(tub.halfExtent);
  let angle = start;
  for (let step = 1; step <= NEWTON_STEPS; step++) {
    fillOutlineJet(outline, angle, jet);
    const r = jet[0]!;
    const slope = jet[1]!;
    const bend = jet[2]!;
    const sin = Math.sin(angle);
    const cos = Math.cos(angle);
    const ahead = r * sin - offset;
    if (!(Math.abs(ahead) < arcSide && Math.abs(angle) <= END)) break;
    const aheadSlope = slope * sin + r * cos;
    const aheadBend = bend * sin + 2 * slope * cos - r * sin;
    const root = Math.sqrt(radius * radius - ahead * ahead);
    const pull = ahead * aheadSlope;
    const above = r * cos;
    const aboveSlope = slope * cos - r * sin;
    const aboveBend = bend * cos - 2 * slope * sin - above;
    const swing = aheadSlope * aheadSlope + ahead * aheadBend;
    const first = aboveSlope + pull / root;
    const second = aboveBend + swing / root + (pull * pull) / (root * root * root);
    if (!(second < 0)) break;
    const change = Math.max(-0.5 * GRID_STEP, Math.min(0.5 * GRID_STEP, -first / second));
    if (Math.abs(change) < CLOSE) {
      offer(above - root + change * (first + 0.5 * second * change), angle + change, answer);
      const open = Math.sqrt(tub.radius * tub.radius - ahead * ahead);
      const openFirst = aboveSlope + pull / open;
      const openSecond = aboveBend + swing / open + (pull * pull) / (open * open * open);
      const reach = -openFirst / openSecond;
      if (!(openSecond < 0 && Math.abs(reach) < FAR)) return false;
      const open0 = above - open + reach * (openFirst + 0.5 * openSecond * reach);
      if (!(open0 <= answer[NEEDED_CONTACT]!)) answer[NEEDED_CONTACT] = open0;
      return true;
    }
    angle += change;
  }
  comb(outline, tub, offset, reserve, start - GRID_STEP, start + GRID_STEP, answer);
  return false;
}

/**
 * Looks, between the table's points near the tub's wall, for a point that needs more than the answer so far. Passes
 * over an interval when its ends cannot: no point of it stands higher than they do, or further out than they do and
 * the parabola through them hides.
 * @returns whether anything was looked at
 */
function searchWall(
  outline: Float64Array,
  tub: Tub,
  offset: number,
  reserve: number,
  widest: number,
  answer: Float64Array,
): boolean {
  const radius = tub.radius - reserve;
  const first = Math.max(FIRST, widest - 2);
  const last = Math.min(LAST, widest + 2);
  const slanted = Math.cos(tub.halfExtent) > 1e-9;
  let hidden = 0;
  for (let k = first + 1; k < last; k++) {
    const bend =
      reachOf(outline, k - 1, offset) - 2 * reachOf(outline, k, offset) + reachOf(outline, k + 1, offset);
    hidden = Math.max(hidden, Math.abs(bend));
  }
  let looked = false;
  for (let k = first; k < last; k++) {
    const out = Math.max(reachOf(outline, k, offset), reachOf(outline, k + 1, offset)) + 0.25 * hidden;
    const up = Math.max(outline[GRID + k]! * GRID_COS[k]!, outline[GRID + k + 1]! * GRID_COS[k + 1]!);
    if (!slanted && out < radius && up - Math.sqrt(radius * radius - out * out) <= answer[NEEDED]!) continue;
    const from = (k - GRID_HALF) * GRID_STEP;
    comb(outline, tub, offset, reserve, from, from + GRID_STEP, answer);
    looked = true;
  }
  return looked;
}

/** How far a point of the table stands out to the side of the arc's centre, m. */
function reachOf(outline: Float64Array, k: number, offset: number): number {
  return Math.abs(outline[GRID + k]! * GRID_SIN[k]! - offset);
}

/** Fills the answer for one reserve. @returns whether the height for reserve 0 was found on the way */
function search(
  outline: Float64Array,
  tub: Tub,
  offset: number,
  reserve: number,
  answer: Float64Array,
): boolean {
  const radius = tub.radius - reserve;
  const square = radius * radius;
  const arcSide = radius * Math.sin(tub.halfExtent);
  let widest = FIRST;
  let reach = 0;
  for (let k = FIRST; k <= LAST; k++) {
    const r = outline[GRID + k]!;
    const ahead = r * GRID_SIN[k]! - offset;
    const side = Math.abs(ahead);
    if (side > reach) {
      reach = side;
      widest = k;
    }
    rise[k] =
      r * GRID_COS[k]! -
      (side <= arcSide ? Math.sqrt(square - ahead * ahead) : ceilingAbove(tub, ahead, reserve));
  }
  let best = Math.max(rise[FIRST]!, rise[LAST]!);
  for (let k = FIRST + 1; k < LAST; k++) {
    const top = rise[k]!;
    if (top >= rise[k - 1]! && top >= rise[k + 1]!) {
      const height = peakHeight(rise[k - 1]!, top, rise[k + 1]!);
      if (height > best) best = height;
    }
  }
  answer[NEEDED] = Number.NEGATIVE_INFINITY;
  answer[NEEDED_ANGLE] = 0;
  answer[NEEDED_CONTACT] = Number.NEGATIVE_INFINITY;
  let settled = true;
  let skipped = Number.NEGATIVE_INFINITY;
  for (let k = FIRST; k <= LAST; k++) {
    const top = rise[k]!;
    const left = k === FIRST ? Number.NEGATIVE_INFINITY : rise[k - 1]!;
    const right = k === LAST ? Number.NEGATIVE_INFINITY : rise[k + 1]!;
    if (top < left || top < right) continue;
    const inner = k > FIRST && k < LAST;
    const height = inner ? peakHeight(left, top, right) : top;
    if (height < best - NEAR_TIE) {
      if (height > skipped) skipped = height;
      continue;
    }
    const start = (k - GRID_HALF + (inner ? peakOffset(left, top, right) : 0)) * GRID_STEP;
    if (!climb(outline, tub, offset, reserve, start, answer)) settled = false;
  }
  // Without the reserve every peak falls by the reserve at least, the deciding one perhaps by more than another.
  if (skipped - reserve + NEAR_TIE > answer[NEEDED_CONTACT]!) settled = false;
  if (reach > NEAR_WALL * radius && answer[NEEDED]! < Number.POSITIVE_INFINITY) {
    if (searchWall(outline, tub, offset, reserve, widest, answer)) settled = false;
  }
  return settled;
}

/**
 * How high the crown of a tub must stand above the axle for an outline to keep the reserve, and the hub angle that
 * decides it. With the body dropped by u and the crown Z above the axle at rest the run keeps its reserve when
 * Z ≥ u + answer. Infinity when some point of the outline fits at no height. One state so answers every height.
 * Source: derived, T + P_z − √((T − reserve)² − (P_x − x_c + s_x)²) over the outline. The angle is found from a table
 * every 10° and Newton steps on the closed form, or a comb of 1° where the tyre is close to the tub's wall: within
 * 10⁻⁶ m of a dense search.
 * @param outline  as filled by `fillOutlineGrid`
 * @param offset  centre of the arc ahead of the axle at the moment, x_c − s_x, m
 * @param reserve  m, ≥ 0, below the tub's radius
 * @param answer  NEEDED_LENGTH numbers, overwritten
 */
export function fillRequiredHeight(
  outline: Float64Array,
  tub: Tub,
  offset: number,
  reserve: number,
  answer: Float64Array,
): void {
  const settled = search(outline, tub, offset, reserve, answer);
  answer[NEEDED]! += tub.radius;
  if (reserve === 0) {
    answer[NEEDED_CONTACT] = answer[NEEDED]!;
  } else if (settled) {
    answer[NEEDED_CONTACT]! += tub.radius;
  } else {
    search(outline, tub, offset, 0, contact);
    answer[NEEDED_CONTACT] = contact[NEEDED]! + tub.radius;
  }
}

/**
 * An upper bound of the answer of `fillRequiredHeight` from the largest radius alone, m: a round outline of that
 * radius needs more. Infinity where the round one does not fit. Decides what need not be searched.
 * @param largest  at least the largest radius of the outline within ±100°, m
 */
export function requiredHeightBound(largest: number, tub: Tub, offset: number, reserve: number): number {
  const room = tub.radius - largest - reserve;
  const square = room * room - offset * offset;
  return room > 0 && square > 0 ? tub.radius - Math.sqrt(square) : Number.POSITIVE_INFINITY;
}
