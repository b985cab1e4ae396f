import { ceilingAbove, legEndSide, legReach, type Tub, VERTICAL } from '../tub/profile.ts';
import {
  fillOutlineJet,
  GRID_HALF,
  GRID_STEP,
  SEARCHED,
  TABLE_X,
  TABLE_X_SLOPE,
  TABLE_Z,
  TABLE_Z_SLOPE,
  WIDEST,
} from '../tyre/outline.ts';
import { cubicPeak, cubicValue } from './cubic.ts';
import { END_ANGLE, END_HEIGHT, fillLegEnd } from './leg-end.ts';
import { fillReach, heightForNotch, type Reach } from './notch.ts';
import { sidesFit } from './round-fits.ts';

/** Places in the answer of `fillRequiredHeight`. */
export const NEEDED = 0; // m, crown above the axle that keeps the reserve, body where it is at the moment
export const NEEDED_ANGLE = 1; // rad, hub angle that decides it
export const NEEDED_CONTACT = 2; // m, the same for reserve 0
export const NEEDED_WALL = 3; // which wall decides it, index into WALLS
export const NEEDED_LENGTH = 4;

/** Walls of a tub that can decide a height; a leg's end belongs to the leg. */
export const WALLS = ['arc', 'leg', 'notch'] as const;
export type Wall = (typeof WALLS)[number];
export const ARC = 0;
export const LEG = 1;
const NOTCH = 2;

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
const peak = new Float64Array(3);
const legEnd = new Float64Array(2);

/**
 * What is asked of the functions below, in one array: numbers that are handed from function to function cost an
 * allocation each where a call is not inlined.
 */
const ask = new Float64Array(6);
const OFFSET = 0; // m
const RADIUS = 1; // T less reserve, m
const START = 2; // m, centre that every table point allows
const BEAT = 3; // m, centre that must be exceeded to matter
const LEG_SIDE = 4; // m beside the arc's centre: points further out have to do with the leg's end only
const BEYOND = 5; // 1 once such a point was met

/**
 * Fills START with the lowest place of the arc's centre that every table point of the outline allows that has arc or leg
 * above it.
 * @param half  table points looked at on either side of straight up
 */
function fillStart(outline: Float64Array, tub: Tub, half: number): void {
  const offset = ask[OFFSET]!;
  const radius = ask[RADIUS]!;
  const square = radius * radius;
  const arcSide = tub.halfExtent >= VERTICAL ? radius : radius * Math.sin(tub.halfExtent);
  const legSide = ask[LEG_SIDE]!;
  let centre = Number.NEGATIVE_INFINITY;
  for (let k = GRID_HALF - half; k <= GRID_HALF + half; k++) {
    const ahead = outline[TABLE_X + k]! - offset;
    if (Math.abs(ahead) > legSide) {
      ask[BEYOND] = 1;
      continue;
    }
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
function fillSquares(outline: Float64Array, tub: Tub, half: number): void {
  const offset = ask[OFFSET]!;
  const centre = ask[START]!;
  const firstPoint = GRID_HALF - half;
  const lastPoint = GRID_HALF + half;
  if (tub.halfExtent >= VERTICAL) {
    for (let k = firstPoint; k <= lastPoint; k++) {
      const ahead = outline[TABLE_X + k]! - offset;
      const above = Math.max(0, outline[TABLE_Z + k]! - centre);
      squares[k] = ahead * ahead + above * above;
      rises[k] = 2 * GRID_STEP * (ahead * outline[TABLE_X_SLOPE + k]! + above * outline[TABLE_Z_SLOPE + k]!);
    }
    return;
  }
  const sin = Math.sin(tub.halfExtent);
  const cos = Math.cos(tub.halfExtent);
  for (let k = firstPoint; k <= lastPoint; k++) {
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
  for (let k = GRID_HALF - SEARCHED; k <= GRID_HALF + SEARCHED; k++) {
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
 * touches the wall: so it needs no search of its own, and a peak beyond the end of a leg shows itself: that is left to
 * the leg's end.
 * peak[0] centre above the axle, m, −Infinity beyond the leg; peak[1] hub angle, rad; peak[2] wall.
 */
function settlePeak(outline: Float64Array, tub: Tub, half: number, startAngle: number): void {
  const offset = ask[OFFSET]!;
  const radius = ask[RADIUS]!;
  const vertical = tub.halfExtent >= VERTICAL;
  const sinEnd = vertical ? 1 : Math.sin(tub.halfExtent);
  const cosEnd = vertical ? 0 : Math.cos(tub.halfExtent);
  const end = half * GRID_STEP;
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
      peak[0] = Number.NEGATIVE_INFINITY;
      ask[BEYOND] = 1;
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
    if (angle + change > end) change = end - angle;
    else if (angle + change < -end) change = -end - angle;
    if (step > HALVED_AFTER) change *= 0.5;
    angle += change;
    if (Math.abs(change) < SETTLED || step === NEWTON_STEPS) {
      peak[0] = lowering > 0 ? centre + (0.5 * first * change) / lowering : centre;
      if (side > ask[LEG_SIDE]!) {
        peak[0] = Number.NEGATIVE_INFINITY;
        ask[BEYOND] = 1;
      }
      peak[1] = angle;
      peak[2] = side <= radius * sinEnd ? ARC : LEG;
      return;
    }
  }
}

/**
 * Centre that every peak asks for, in peak[0], from a START that every table point already allows; its angle in
 * peak[1]. Between two points of the table runs a cubic, so that twin peaks with a shallow dip between are both seen.
 * A peak that cannot ask for more than BEAT is passed over; START is answered when none can.
 */
function settleAll(outline: Float64Array, tub: Tub, half: number): void {
  const radius = ask[RADIUS]!;
  const start = ask[START]!;
  const beat = ask[BEAT]!;
  const near = (radius - MISSED) * (radius - MISSED);
  fillSquares(outline, tub, half);
  let centre = start;
  let decides = 0;
  let wall = ARC;
  const firstPoint = GRID_HALF - half;
  const lastPoint = GRID_HALF + half;
  for (let k = firstPoint; k < lastPoint; k++) {
    const first = rises[k]!;
    const last = rises[k + 1]!;
    const left = squares[k]!;
    const right = squares[k + 1]!;
    // No cubic rises above its ends by more than 4/27 of its slopes there.
    const most = Math.max(left, right) + (4 / 27) * (Math.max(0, first) - Math.min(0, last));
    if (most < near) continue;
    let t = cubicPeak(first, last, right - left);
    if (k === firstPoint && first < 0 && t < 0) t = 0;
    else if (k === lastPoint - 1 && last > 0) t = 1;
    if (t < 0) continue;
    const height = cubicValue(left, right, first, last, t);
    if (height < near) continue;
    // The wall of the tub falls away from a point no faster than twice its slope there, while it stands well above.
    const above = Math.min(outline[TABLE_Z + k]!, outline[TABLE_Z + k + 1]!) - start;
    const slope = above / radius;
    const highest = start + (2 * (0.5 * (height / radius - radius) + MISSED)) / slope;
    if (slope > 0.5 && highest <= beat) continue;
    settlePeak(outline, tub, half, (k + t - GRID_HALF) * GRID_STEP);
    if (!(peak[0]! <= centre)) {
      centre = peak[0]!;
      decides = peak[1]!;
      wall = peak[2]!;
    }
  }
  peak[0] = centre;
  peak[1] = decides;
  peak[2] = wall;
}

/** Fills `peak` with the centre that the outline's table points asks for under arc and legs. */
function searchPeaks(outline: Float64Array, tub: Tub, half: number): void {
  const radius = ask[RADIUS]!;
  ask[LEG_SIDE] =
    tub.halfExtent >= VERTICAL ? radius : legEndSide(tub) - (tub.radius - radius) * Math.sin(tub.halfExtent);
  fillStart(outline, tub, half);
  if (Math.abs(ask[START]!) < Number.POSITIVE_INFINITY) settleAll(outline, tub, half);
  else peak[0] = ask[START]!;
}

/** Raises `peak` to what the ends of the legs ask for. */
function addLegEnds(outline: Float64Array, tub: Tub): void {
  const reserve = tub.radius - ask[RADIUS]!;
  const side = legEndSide(tub);
  const below = legReach(tub);
  const round = outline[WIDEST]! + reserve;
  for (let way = -1; way <= 1; way += 2) {
    const ahead = ask[OFFSET]! + way * side;
    // Where the end stands clear of a round outline of the widest radius it asks for nothing.
    const over = round * round - ahead * ahead;
    if (way * ahead > 0 && over <= 0) continue;
    if (way * ahead > 0 && Math.sqrt(over) + below <= Math.max(peak[0]!, ask[BEAT]!)) continue;
    fillLegEnd(outline, ahead, way, reserve, legEnd);
    const centre = legEnd[END_HEIGHT]! + below;
    if (!(centre > peak[0]!)) continue;
    peak[0] = centre;
    peak[1] = legEnd[END_ANGLE]!;
    peak[2] = LEG;
  }
}

/** Fills `peak` with the centre that the outline asks for; a lower bound of it, at most BEAT, where it surely asks for no more. */
function findCentre(outline: Float64Array, tub: Tub): void {
  const radius = ask[RADIUS]!;
  peak[0] = Number.NEGATIVE_INFINITY;
  peak[1] = 0;
  peak[2] = ARC;
  ask[BEYOND] = 0;
  if (!staysWithin(outline)) searchPeaks(outline, tub, SEARCHED);
  const least = Math.max(peak[0]!, ask[BEAT]!);
  const met = ask[BEYOND] === 1;
  if (!met && sidesFit(outline[WIDEST]!, tub.halfExtent, ask[OFFSET]!, radius, least)) return;
  // Beyond 100° an upright wall is met by its end only, a slanted one may be met along its length.
  if (tub.halfExtent < VERTICAL) searchPeaks(outline, tub, GRID_HALF);
  addLegEnds(outline, tub);
}

/**
 * How high the crown of a tub must stand above the axle for an outline to keep the reserve, and the hub angle that
 * decides it. With the body dropped by u and the crown Z above the axle at rest the run keeps its reserve when
 * Z ≥ u + answer. One state so answers every height. Legs end where they end: a tub that is too narrow for its tyre is
 * answered with the height at which its ends stand clear above the tyre's shoulders. Infinity only where the tub stands
 * beside the tyre.
 * Source: derived, T + P_z − √((T − reserve)² − (P_x − x_c + s_x)²) under the arc, the straight line under a leg, the
 * largest over the outline. A table every 10° finds the peaks, Newton on the closed form settles them: within 10⁻¹¹ m.
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
  answer[NEEDED_WALL] = peak[2]!;
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
      answer[NEEDED_WALL] = NOTCH;
    }
    const contact = heightForNotch(tub, notch, reach.reach, offset, 0);
    if (contact > answer[NEEDED_CONTACT]!) answer[NEEDED_CONTACT] = contact;
  }
}
