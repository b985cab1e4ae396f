import { ceilingAbove, type Tub } from '../tub/profile.ts';
import { LOBE_HALF_WIDTH } from '../tyre/lobe.ts';
import {
  fillOutlineJet,
  GRID_HALF,
  GRID_STEP,
  LOBE_MIDDLE,
  outlineRadius,
  TABLE_X,
  TABLE_Z,
} from '../tyre/outline.ts';
import { fillReach, heightForNotch, type Reach } from './notch.ts';

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

/** What the parabolas through the table may miss of a peak, m. */
const MISSED = 2e-4;
/** How far from the wall, m, a table point may be and a peak beside it still decide. */
const RIPPLE = 1.5e-3;
/** Newton stops when the peak stands this close to the wall it is moved to, m, its angle this close, rad. */
const CLOSE = 1e-9;
const CLOSE_ANGLE = 1e-3;
const NEWTON_STEPS = 24;

const squares = new Float64Array(2 * GRID_HALF + 1);
const jet = new Float64Array(3);
const peak = new Float64Array(2);

/** Half extents from here on end in vertical legs. */
const VERTICAL = Math.PI / 2 - 1e-9;

/**
 * Highest place of the arc's centre that a table point of the outline asks for: the centre may not stand lower.
 * Infinity when a point is out of the tub's reach at every height.
 */
function centreFromTable(outline: Float64Array, tub: Tub, offset: number, reserve: number): number {
  const radius = tub.radius - reserve;
  const square = radius * radius;
  const arcSide = tub.halfExtent >= VERTICAL ? radius : radius * Math.sin(tub.halfExtent);
  let centre = Number.NEGATIVE_INFINITY;
  for (let k = FIRST; k <= LAST; k++) {
    const ahead = outline[TABLE_X + k]! - offset;
    const ceiling =
      Math.abs(ahead) <= arcSide ? Math.sqrt(square - ahead * ahead) : ceilingAbove(tub, ahead, reserve);
    const here = outline[TABLE_Z + k]! - ceiling;
    if (!(here <= centre)) centre = here;
  }
  return centre;
}

/** Squared reach of each table point: from the arc's centre, or to the side where a leg stands beside it, m². */
function fillSquares(outline: Float64Array, tub: Tub, offset: number, centre: number): void {
  if (tub.halfExtent >= VERTICAL) {
    for (let k = FIRST; k <= LAST; k++) {
      const ahead = outline[TABLE_X + k]! - offset;
      const above = Math.max(0, outline[TABLE_Z + k]! - centre);
      squares[k] = ahead * ahead + above * above;
    }
    return;
  }
  const sin = Math.sin(tub.halfExtent);
  const cos = Math.cos(tub.halfExtent);
  for (let k = FIRST; k <= LAST; k++) {
    const side = Math.abs(outline[TABLE_X + k]! - offset);
    const above = outline[TABLE_Z + k]! - centre;
    const leg = side * sin + above * cos;
    squares[k] = side * cos - above * sin <= 0 ? side * side + above * above : leg * leg;
  }
}

/**
 * Newton on one peak of the outline's reach, angle and centre together: moves the centre until the peak reaches the
 * wall. Quadratic, for the reach is smooth in the angle and convex in the centre.
 * peak[0] centre above the axle, m, Infinity when no height helps; peak[1] hub angle, rad.
 */
function settlePeak(
  outline: Float64Array,
  tub: Tub,
  offset: number,
  reserve: number,
  startAngle: number,
  startCentre: number,
): void {
  const radius = tub.radius - reserve;
  const vertical = tub.halfExtent >= VERTICAL;
  const sinEnd = vertical ? 1 : Math.sin(tub.halfExtent);
  const cosEnd = vertical ? 0 : Math.cos(tub.halfExtent);
  let angle = startAngle;
  let centre = startCentre;
  for (let step = 0; step < NEWTON_STEPS; step++) {
    fillOutlineJet(outline, angle, jet);
    const r = jet[0]!;
    const slope = jet[1]!;
    const bend = jet[2]!;
    const sin = Math.sin(angle);
    const cos = Math.cos(angle);
    const x = r * sin - offset;
    const z = r * cos - centre;
    const xSlope = slope * sin + r * cos;
    const zSlope = slope * cos - r * sin;
    const xBend = bend * sin + 2 * slope * cos - r * sin;
    const zBend = bend * cos - 2 * slope * sin - r * cos;
    let reach: number;
    let first: number;
    let second: number;
    let lowering: number;
    if (Math.abs(x) * cosEnd - z * sinEnd <= 0) {
      reach = Math.sqrt(x * x + z * z);
      first = (x * xSlope + z * zSlope) / reach;
      second = (xSlope * xSlope + zSlope * zSlope + x * xBend + z * zBend - first * first) / reach;
      lowering = z / reach;
    } else {
      const way = x < 0 ? -sinEnd : sinEnd;
      reach = way * x + cosEnd * z;
      first = way * xSlope + cosEnd * zSlope;
      second = way * xBend + cosEnd * zBend;
      lowering = cosEnd;
    }
    let change = second < 0 ? -first / second : Math.sign(first) * 0.25 * GRID_STEP;
    change = Math.max(-0.5 * GRID_STEP, Math.min(0.5 * GRID_STEP, change));
    if (angle + change > END) change = END - angle;
    else if (angle + change < -END) change = -END - angle;
    const over = reach + change * (first + 0.5 * second * change) - radius;
    if (Math.abs(over) < CLOSE && Math.abs(change) < CLOSE_ANGLE) break;
    if (lowering <= 0) {
      // Beside the centre: the wall is upright there and no height helps a point that is past it.
      if (Math.abs(change) < CLOSE_ANGLE) {
        peak[0] = over > CLOSE ? Number.POSITIVE_INFINITY : Number.NEGATIVE_INFINITY;
        peak[1] = angle + change;
        return;
      }
    } else {
      centre += over / lowering;
    }
    angle += change;
  }
  peak[0] = centre;
  peak[1] = angle;
}

/** Reach of one point of the outline: from the arc's centre, or to the side where a leg stands beside it, m. */
function reachAt(outline: Float64Array, tub: Tub, offset: number, centre: number, angle: number): number {
  const r = outlineRadius(outline, angle);
  const side = Math.abs(r * Math.sin(angle) - offset);
  const above = r * Math.cos(angle) - centre;
  const vertical = tub.halfExtent >= VERTICAL;
  const sin = vertical ? 1 : Math.sin(tub.halfExtent);
  const cos = vertical ? 0 : Math.cos(tub.halfExtent);
  const leg = side * sin + above * cos;
  return side * cos - above * sin <= 0 ? Math.sqrt(side * side + above * above) : leg;
}

/**
 * Centre that every peak asks for, from a centre that every table point already allows. Angle goes to peak[1].
 * A peak that cannot ask for more than `beat` is passed over; `start` is answered when none can.
 */
function settleAll(
  outline: Float64Array,
  tub: Tub,
  offset: number,
  reserve: number,
  start: number,
  beat: number,
): number {
  const radius = tub.radius - reserve;
  const near = (radius - MISSED) * (radius - MISSED);
  fillSquares(outline, tub, offset, start);
  let centre = start;
  let decides = 0;
  let settled = false;
  for (let k = FIRST; k <= LAST; k++) {
    const top = squares[k]!;
    const left = k === FIRST ? Number.NEGATIVE_INFINITY : squares[k - 1]!;
    const right = k === LAST ? Number.NEGATIVE_INFINITY : squares[k + 1]!;
    if (top < left || top < right) continue;
    let angle = (k - GRID_HALF) * GRID_STEP;
    let height = top;
    if (k > FIRST && k < LAST) {
      const bend = left - 2 * top + right;
      const lean = right - left;
      if (bend < 0) {
        height = top - (lean * lean) / (8 * bend);
        angle -= ((0.5 * lean) / bend) * GRID_STEP;
      }
    }
    if (height < near) continue;
    // The wall of the tub falls away from a point no faster than twice its slope there, while it stands well above.
    const above = outline[TABLE_Z + k]! - start;
    const slope = above / radius;
    const most = start + (2 * (0.5 * (height / radius - radius) + MISSED)) / slope;
    if (slope > 0.5 && most <= beat) continue;
    settled = true;
    settlePeak(outline, tub, offset, reserve, angle, start);
    if (!(peak[0]! <= centre)) {
      centre = peak[0]!;
      decides = peak[1]!;
    }
  }
  peak[1] = decides;
  if (!settled) return centre;
  // Where the lobe begins or ends the outline's curvature jumps, and a peak can hide between two table points.
  const close = (radius - RIPPLE) * (radius - RIPPLE);
  for (let place = 0; place < 4; place++) {
    // The interval of each end of the lobe, and its neighbour inside the lobe.
    const end = place < 2 ? -1 : 1;
    const kink = outline[LOBE_MIDDLE]! + end * LOBE_HALF_WIDTH;
    const k = GRID_HALF + Math.floor(kink / GRID_STEP) - end * (place % 2);
    if (k < FIRST || k >= LAST || (squares[k]! < close && squares[k + 1]! < close)) continue;
    const between = (k - GRID_HALF + 0.5) * GRID_STEP;
    if (reachAt(outline, tub, offset, centre, between) <= radius + CLOSE) continue;
    settlePeak(outline, tub, offset, reserve, between, centre);
    if (peak[0]! > centre) {
      centre = peak[0]!;
      decides = peak[1]!;
    }
  }
  peak[1] = decides;
  return centre;
}

/**
 * How high the crown of a tub must stand above the axle for an outline to keep the reserve, and the hub angle that
 * decides it. With the body dropped by u and the crown Z above the axle at rest the run keeps its reserve when
 * Z ≥ u + answer. Infinity when some point of the outline fits at no height. One state so answers every height.
 * Source: derived, T + P_z − √((T − reserve)² − (P_x − x_c + s_x)²), the largest over the outline. A table every 10°
 * finds the peaks, Newton on the closed form settles them: within 10⁻⁶ m of a dense search.
 * @param outline  as filled by `fillOutlineGrid`
 * @param offset  centre of the arc ahead of the axle at the moment, x_c − s_x, m
 * @param reserve  m, ≥ 0, below the tub's radius
 * @param beat  what the answer must exceed to matter, m; where the table shows that it cannot, a lower bound
 *   of it is answered; −Infinity for the whole answer
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
  const start = centreFromTable(outline, tub, offset, reserve);
  answer[NEEDED_ANGLE] = 0;
  if (!(Math.abs(start) < Number.POSITIVE_INFINITY)) {
    answer[NEEDED] = start;
  } else {
    const enough = Math.min(beat, beatContact + reserve) - tub.radius;
    const centre = settleAll(outline, tub, offset, reserve, start, enough);
    answer[NEEDED] = tub.radius + centre;
    answer[NEEDED_ANGLE] = peak[1]!;
  }
  // Without the reserve every point allows the centre to stand lower by the reserve at least.
  if (reserve === 0) {
    answer[NEEDED_CONTACT] = answer[NEEDED]!;
  } else if (answer[NEEDED]! - reserve <= beatContact) {
    answer[NEEDED_CONTACT] = Number.NEGATIVE_INFINITY;
  } else {
    const contactStart = centreFromTable(outline, tub, offset, 0);
    const angle = answer[NEEDED_ANGLE]!;
    answer[NEEDED_CONTACT] =
      Math.abs(contactStart) < Number.POSITIVE_INFINITY
        ? tub.radius + settleAll(outline, tub, offset, 0, contactStart, beatContact - tub.radius)
        : contactStart;
    answer[NEEDED_ANGLE] = angle;
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
 * An upper bound of the answer of `fillRequiredHeight` from the largest radius alone, m: a round outline of that
 * radius needs more. Infinity where the round one does not fit. Decides what need not be searched.
 * @param largest  at least the largest radius of the outline within ±100°, m
 */
export function requiredHeightBound(largest: number, tub: Tub, offset: number, reserve: number): number {
  const room = tub.radius - largest - reserve;
  const square = room * room - offset * offset;
  let bound = room > 0 && square > 0 ? tub.radius - Math.sqrt(square) : Number.POSITIVE_INFINITY;
  if (tub.notches !== undefined) {
    for (const notch of tub.notches)
      bound = Math.max(bound, heightForNotch(tub, notch, largest, offset, reserve));
  }
  return bound;
}
