import { ceilingAbove, type Tub } from '../tub/profile.ts';
import {
  fillOutlineJet,
  GRID_HALF,
  GRID_STEP,
  SEARCHED,
  TABLE_X,
  TABLE_X_SLOPE,
  TABLE_Z,
  TABLE_Z_SLOPE,
} from '../tyre/outline.ts';
import { fillReach, heightForNotch, type Reach } from './notch.ts';

/** Places in the answer of `fillRequiredHeight`. */
export const NEEDED = 0; // m, crown above the axle that keeps the reserve, body where it is at the moment
export const NEEDED_ANGLE = 1; // rad, hub angle that decides it
export const NEEDED_CONTACT = 2; // m, the same for reserve 0
export const NEEDED_LENGTH = 3;

/** The search looks ±100° from straight up; beside and below that a leg decides. */
const FIRST = GRID_HALF - SEARCHED;
const LAST = GRID_HALF + SEARCHED;
const END = SEARCHED * GRID_STEP;

/** What a cubic between two points of the table may miss of a peak, m. */
const MISSED = 2e-4;
/** A Newton step this small, rad, leaves an error of its third power in the answer. */
const SETTLED = 1e-4;
/** Steps after which each is halved, and most of them: beside an upright wall Newton may go to and fro. */
const HALVED_AFTER = 8;
const NEWTON_STEPS = 48;

/** Squared distance of each table point from the arc's centre, and its derivative by the table's step, m². */
const squares = new Float64Array(2 * GRID_HALF + 1);
const rises = new Float64Array(2 * GRID_HALF + 1);
const jet = new Float64Array(3);
const peak = new Float64Array(2);

/**
 * What is asked of the functions below, in one array: numbers that are handed from function to function cost an
 * allocation each where a call is not inlined.
 */
const ask = new Float64Array(4);
const OFFSET = 0; // m
const RADIUS = 1; // T less reserve, m
const START = 2; // m, centre that every table point allows
const BEAT = 3; // m, centre that must be exceeded to matter

/** Half extents from here on end in vertical legs. */
const VERTICAL = Math.PI / 2 - 1e-9;

/**
 * Fills START with the lowest place of the arc's centre that every table point of the outline allows, Infinity when a
 * point is out of the tub's reach at every height.
 */
function fillStart(outline: Float64Array, tub: Tub): void {
  const offset = ask[OFFSET]!;
  const radius = ask[RADIUS]!;
  const square = radius * radius;
  const arcSide = tub.halfExtent >= VERTICAL ? radius : radius * Math.sin(tub.halfExtent);
  let centre = Number.NEGATIVE_INFINITY;
  for (let k = FIRST; k <= LAST; k++) {
    const ahead = outline[TABLE_X + k]! - offset;
    const above = outline[TABLE_Z + k]!;
    // Two subtractions, not one of a chosen ceiling: a number that may come from a call is boxed at every point.
    const here =
      Math.abs(ahead) <= arcSide
        ? above - Math.sqrt(square - ahead * ahead)
        : above - ceilingAbove(tub, ahead, tub.radius - radius);
    if (!(here <= centre)) centre = here;
  }
  ask[START] = centre;
}

/** Fills `squares` and `rises` seen from START; to the side where a leg stands beside a point. */
function fillSquares(outline: Float64Array, tub: Tub): void {
  const offset = ask[OFFSET]!;
  const centre = ask[START]!;
  if (tub.halfExtent >= VERTICAL) {
    for (let k = FIRST; k <= LAST; k++) {
      const ahead = outline[TABLE_X + k]! - offset;
      const above = Math.max(0, outline[TABLE_Z + k]! - centre);
      squares[k] = ahead * ahead + above * above;
      rises[k] = 2 * GRID_STEP * (ahead * outline[TABLE_X_SLOPE + k]! + above * outline[TABLE_Z_SLOPE + k]!);
    }
    return;
  }
  const sin = Math.sin(tub.halfExtent);
  const cos = Math.cos(tub.halfExtent);
  for (let k = FIRST; k <= LAST; k++) {
    const ahead = outline[TABLE_X + k]! - offset;
    const side = Math.abs(ahead);
    const above = outline[TABLE_Z + k]! - centre;
    const xSlope = outline[TABLE_X_SLOPE + k]!;
    const zSlope = outline[TABLE_Z_SLOPE + k]!;
    if (side * cos - above * sin <= 0) {
      squares[k] = side * side + above * above;
      rises[k] = 2 * GRID_STEP * (ahead * xSlope + above * zSlope);
    } else {
      const leg = side * sin + above * cos;
      squares[k] = leg * leg;
      rises[k] = 2 * GRID_STEP * leg * ((ahead < 0 ? -sin : sin) * xSlope + cos * zSlope);
    }
  }
}

/**
 * Whether the outline surely stays within the arc with its centre at BEAT, so that it cannot ask for more. The arc's
 * circle is taken all round: legs leave more room than it.
 */
function staysWithin(outline: Float64Array): boolean {
  const offset = ask[OFFSET]!;
  const centre = ask[BEAT]!;
  const radius = ask[RADIUS]! - MISSED;
  const square = radius * radius;
  let left = 0;
  let first = 0;
  for (let k = FIRST; k <= LAST; k++) {
    const ahead = outline[TABLE_X + k]! - offset;
    const above = outline[TABLE_Z + k]! - centre;
    const right = ahead * ahead + above * above;
    const last = 2 * GRID_STEP * (ahead * outline[TABLE_X_SLOPE + k]! + above * outline[TABLE_Z_SLOPE + k]!);
    const most = Math.max(left, right) + (4 / 27) * (Math.max(0, first) - Math.min(0, last));
    if (!(most < square)) return false;
    left = right;
    first = last;
  }
  return true;
}

/**
 * Newton on one peak of the outline's distance from the arc's centre. The centre is kept where the point in hand
 * touches the wall: so it needs no search of its own, and a point that fits at no height shows itself.
 * peak[0] centre above the axle, m, Infinity when no height helps; peak[1] hub angle, rad.
 */
function settlePeak(outline: Float64Array, tub: Tub, startAngle: number): void {
  const offset = ask[OFFSET]!;
  const radius = ask[RADIUS]!;
  const vertical = tub.halfExtent >= VERTICAL;
  const sinEnd = vertical ? 1 : Math.sin(tub.halfExtent);
  const cosEnd = vertical ? 0 : Math.cos(tub.halfExtent);
  let angle = startAngle;
  for (let step = 1; ; step++) {
    fillOutlineJet(outline, angle, jet);
    const r = jet[0]!;
    const slope = jet[1]!;
    const bend = jet[2]!;
    const sin = Math.sin(angle);
    const cos = Math.cos(angle);
    const x = r * sin - offset;
    const z = r * cos;
    const xSlope = slope * sin + r * cos;
    const zSlope = slope * cos - r * sin;
    const xBend = bend * sin + 2 * slope * cos - r * sin;
    const zBend = bend * cos - 2 * slope * sin - r * cos;
    const side = Math.abs(x);
    let centre: number;
    let first: number;
    let second: number;
    let lowering: number;
    if (side <= radius * sinEnd) {
      const above = Math.sqrt(radius * radius - side * side);
      centre = z - above;
      first = (x * xSlope + above * zSlope) / radius;
      second = (xSlope * xSlope + zSlope * zSlope + x * xBend + above * zBend - first * first) / radius;
      lowering = above / radius;
    } else if (vertical) {
      peak[0] = Number.POSITIVE_INFINITY;
      peak[1] = angle;
      return;
    } else {
      const way = x < 0 ? -sinEnd : sinEnd;
      centre = z - (radius - side * sinEnd) / cosEnd;
      first = way * xSlope + cosEnd * zSlope;
      second = way * xBend + cosEnd * zBend;
      lowering = cosEnd;
    }
    let change = second < 0 ? -first / second : Math.sign(first) * 0.25 * GRID_STEP;
    change = Math.max(-0.5 * GRID_STEP, Math.min(0.5 * GRID_STEP, change));
    if (angle + change > END) change = END - angle;
    else if (angle + change < -END) change = -END - angle;
    if (step > HALVED_AFTER) change *= 0.5;
    angle += change;
    if (Math.abs(change) < SETTLED || step === NEWTON_STEPS) {
      peak[0] = lowering > 0 ? centre + (0.5 * first * change) / lowering : centre;
      peak[1] = angle;
      return;
    }
  }
}

/**
 * Where, from 0 to 1, the cubic with these slopes at its ends and this difference between them has its peak; −1 where
 * it has none. Its slope is first (1 − t) + last t + c t (1 − t).
 */
function cubicPeak(first: number, last: number, difference: number): number {
  const c = 6 * difference - 3 * (first + last);
  if (!(first > 0 && last <= 0) && Math.abs(c) < 4 * Math.min(Math.abs(first), Math.abs(last))) return -1;
  const b = last - first + c;
  const square = b * b + 4 * c * first;
  if (square < 0) return -1;
  const root = Math.sqrt(square);
  const t = b < 0 ? (2 * first) / (root - b) : (b + root) / (2 * c);
  return t >= 0 && t <= 1 ? t : -1;
}

/**
 * Centre that every peak asks for, in peak[0], from a START that every table point already allows; its angle in
 * peak[1]. Between two points of the table runs a cubic, so that twin peaks with a shallow dip between are both seen.
 * A peak that cannot ask for more than BEAT is passed over; START is answered when none can.
 */
function settleAll(outline: Float64Array, tub: Tub): void {
  const radius = ask[RADIUS]!;
  const start = ask[START]!;
  const beat = ask[BEAT]!;
  const near = (radius - MISSED) * (radius - MISSED);
  fillSquares(outline, tub);
  let centre = start;
  let decides = 0;
  for (let k = FIRST; k < LAST; k++) {
    const first = rises[k]!;
    const last = rises[k + 1]!;
    const left = squares[k]!;
    const right = squares[k + 1]!;
    // No cubic rises above its ends by more than 4/27 of its slopes there.
    const most = Math.max(left, right) + (4 / 27) * (Math.max(0, first) - Math.min(0, last));
    if (most < near) continue;
    let t = cubicPeak(first, last, right - left);
    if (k === FIRST && first < 0 && t < 0) t = 0;
    else if (k === LAST - 1 && last > 0) t = 1;
    if (t < 0) continue;
    const s = 1 - t;
    const height = s * s * ((1 + 2 * t) * left + t * first) + t * t * ((1 + 2 * s) * right - s * last);
    if (height < near) continue;
    // The wall of the tub falls away from a point no faster than twice its slope there, while it stands well above.
    const above = Math.min(outline[TABLE_Z + k]!, outline[TABLE_Z + k + 1]!) - start;
    const slope = above / radius;
    const highest = start + (2 * (0.5 * (height / radius - radius) + MISSED)) / slope;
    if (slope > 0.5 && highest <= beat) continue;
    settlePeak(outline, tub, (k + t - GRID_HALF) * GRID_STEP);
    if (!(peak[0]! <= centre)) {
      centre = peak[0]!;
      decides = peak[1]!;
    }
  }
  peak[0] = centre;
  peak[1] = decides;
}

/** Fills `peak` with the centre that the outline asks for; −Infinity where it surely asks for no more than BEAT. */
function findCentre(outline: Float64Array, tub: Tub): void {
  peak[0] = Number.NEGATIVE_INFINITY;
  peak[1] = 0;
  if (staysWithin(outline)) return;
  fillStart(outline, tub);
  if (Math.abs(ask[START]!) < Number.POSITIVE_INFINITY) settleAll(outline, tub);
  else peak[0] = ask[START]!;
}

/**
 * How high the crown of a tub must stand above the axle for an outline to keep the reserve, and the hub angle that
 * decides it. With the body dropped by u and the crown Z above the axle at rest the run keeps its reserve when
 * Z ≥ u + answer. Infinity when some point of the outline fits at no height. One state so answers every height.
 * Source: derived, T + P_z − √((T − reserve)² − (P_x − x_c + s_x)²), the largest over the outline. A table every 10°
 * finds the peaks, Newton on the closed form settles them: within 10⁻¹¹ m.
 * @param outline  as filled by `fillOutlineGrid`
 * @param offset  centre of the arc ahead of the axle at the moment, x_c − s_x, m
 * @param reserve  m, ≥ 0, below the tub's radius
 * @param beat  what the answer must exceed to matter, m; where the table shows that it does not, a lower bound
 *   of it is answered, which may be −Infinity; −Infinity asks for the whole answer
 * @param beatContact  the same for reserve 0
 * @param answer  NEEDED_LENGTH numbers, overwritten
 */
export function fillRequiredHeight(
  outline: Float64Array,
  tub: Tub,
  offset: number,
  reserve: number,
  beat: number,
  beatContact: number,
  answer: Float64Array,
): void {
  ask[OFFSET] = offset;
  ask[RADIUS] = tub.radius - reserve;
  ask[BEAT] = Math.min(beat, beatContact + reserve) - tub.radius;
  findCentre(outline, tub);
  answer[NEEDED] = tub.radius + peak[0]!;
  answer[NEEDED_ANGLE] = peak[1]!;
  // Without the reserve every point allows the centre to stand lower by the reserve at least.
  if (reserve === 0) {
    answer[NEEDED_CONTACT] = answer[NEEDED]!;
  } else if (answer[NEEDED]! - reserve <= beatContact) {
    answer[NEEDED_CONTACT] = Number.NEGATIVE_INFINITY;
  } else {
    ask[RADIUS] = tub.radius;
    ask[BEAT] = beatContact - tub.radius;
    findCentre(outline, tub);
    answer[NEEDED_CONTACT] = tub.radius + peak[0]!;
  }
  if (tub.notches !== undefined) addNotches(outline, tub, offset, reserve, answer);
}

const reach: Reach = { reach: 0, angle: 0 };

/** Raises the answer to what the tub's notches ask for. */
function addNotches(
  outline: Float64Array,
  tub: Tub,
  offset: number,
  reserve: number,
  answer: Float64Array,
): void {
  for (const notch of tub.notches!) {
    fillReach(outline, notch.angle, reach);
    const needed = heightForNotch(tub, notch, reach.reach, offset, reserve);
    if (needed > answer[NEEDED]!) {
      answer[NEEDED] = needed;
      answer[NEEDED_ANGLE] = reach.angle;
    }
    const contact = heightForNotch(tub, notch, reach.reach, offset, 0);
    if (contact > answer[NEEDED_CONTACT]!) answer[NEEDED_CONTACT] = contact;
  }
}

/**
 * Whether a round outline keeps the reserve with the crown at a height: then no outline that stays within it needs
 * more. Decides what need not be searched.
 * @param largest  at least the largest radius of the outline within ±100°, m
 * @param height  of the crown above the axle, m
 */
export function roundFits(
  largest: number,
  tub: Tub,
  offset: number,
  reserve: number,
  height: number,
): boolean {
  const room = tub.radius - largest - reserve;
  const centre = height - tub.radius;
  if (!(room > 0 && offset * offset + centre * centre <= room * room)) return false;
  if (tub.notches !== undefined) {
    for (const notch of tub.notches) {
      if (heightForNotch(tub, notch, largest, offset, reserve) > height) return false;
    }
  }
  return true;
}
