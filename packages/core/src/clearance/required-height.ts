import { ceilingAbove, type Tub } from '../tub/profile.ts';
import { fillOutlineJet, GRID, GRID_COS, GRID_HALF, GRID_SIN, GRID_STEP } from '../tyre/outline.ts';

/** Places in the answer of `fillRequiredHeight`. */
export const NEEDED = 0; // m, crown above the axle that keeps the reserve, body where it is at the moment
export const NEEDED_ANGLE = 1; // rad, hub angle that decides it
export const NEEDED_CONTACT = 2; // m, the same for reserve 0
export const NEEDED_LENGTH = 3;

/** The search looks ±100° from straight up; beside and below that a leg decides. */
const REACH = 10;
const FIRST = GRID_HALF - REACH;
const LAST = GRID_HALF + REACH;

/** Peaks of the table that come within this of the best are searched too, m. */
const NEAR_TIE = 2e-4;
/** A Newton step shorter than this, rad, leaves less than 10⁻⁶ m. */
const CLOSE = 0.01;
const NEWTON_STEPS = 4;

const rise = new Float64Array(2 * GRID_HALF + 1);
const jet = new Float64Array(3);

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

/** Newton from `start` on one peak; writes the answer when it beats what is there. */
function climb(
  outline: Float64Array,
  tub: Tub,
  offset: number,
  reserve: number,
  start: number,
  answer: Float64Array,
): void {
  const radius = tub.radius - reserve;
  const sinEnd = Math.sin(tub.halfExtent);
  const cosEnd = Math.cos(tub.halfExtent);
  let angle = start;
  for (let step = 1; ; step++) {
    fillOutlineJet(outline, angle, jet);
    const r = jet[0]!;
    const slope = jet[1]!;
    const bend = jet[2]!;
    const sin = Math.sin(angle);
    const cos = Math.cos(angle);
    const ahead = r * sin - offset;
    const aheadSlope = slope * sin + r * cos;
    const aheadBend = bend * sin + 2 * slope * cos - r * sin;
    const above = r * cos;
    const aboveSlope = slope * cos - r * sin;
    const aboveBend = bend * cos - 2 * slope * sin - r * cos;
    const side = Math.abs(ahead);
    let value: number;
    let first: number;
    let second: number;
    let contact: number;
    if (side < radius * sinEnd) {
      const root = Math.sqrt(radius * radius - ahead * ahead);
      const pull = ahead * aheadSlope;
      value = above - root;
      first = aboveSlope + pull / root;
      second =
        aboveBend +
        (aheadSlope * aheadSlope + ahead * aheadBend) / root +
        (pull * pull) / (root * root * root);
      const rootContact = Math.sqrt(tub.radius * tub.radius - ahead * ahead);
      const firstContact = aboveSlope + pull / rootContact;
      const secondContact =
        aboveBend +
        (aheadSlope * aheadSlope + ahead * aheadBend) / rootContact +
        (pull * pull) / (rootContact * rootContact * rootContact);
      contact = above - rootContact;
      if (secondContact < 0) {
        const reach = Math.max(-GRID_STEP, Math.min(GRID_STEP, -firstContact / secondContact));
        contact += reach * (firstContact + 0.5 * secondContact * reach);
      }
    } else {
      const ceiling = ceilingAbove(tub, ahead, reserve);
      const lean = cosEnd < 1e-9 ? 0 : (Math.sign(ahead) * sinEnd) / cosEnd;
      value = above - ceiling;
      first = aboveSlope + lean * aheadSlope;
      second = aboveBend + lean * aheadBend;
      contact = above - ceilingAbove(tub, ahead, 0);
    }
    let change = second < 0 ? -first / second : 0;
    change = Math.max(-0.5 * GRID_STEP, Math.min(0.5 * GRID_STEP, change));
    if (Math.abs(change) < CLOSE || step === NEWTON_STEPS || !Number.isFinite(value)) {
      const best = value + change * (first + 0.5 * second * change);
      if (!(best <= answer[NEEDED]!)) {
        answer[NEEDED] = best;
        answer[NEEDED_ANGLE] = angle + change;
      }
      if (!(contact <= answer[NEEDED_CONTACT]!)) answer[NEEDED_CONTACT] = contact;
      return;
    }
    angle += change;
  }
}

/**
 * How high the crown of a tub must stand above the axle for an outline to keep the reserve, and the hub angle that
 * decides it. With the body dropped by u and the crown Z above the axle at rest the run keeps its reserve when
 * Z ≥ u + answer. Infinity when some point of the outline fits at no height. One state so answers every height.
 * Source: derived, T + P_z − √((T − reserve)² − (P_x − x_c + s_x)²) over the outline. The angle is found from a table
 * every 10° and Newton steps on the closed form: within 10⁻⁶ m of a dense search.
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
  const radius = tub.radius - reserve;
  const square = radius * radius;
  const arcSide = radius * Math.sin(tub.halfExtent);
  for (let k = FIRST; k <= LAST; k++) {
    const r = outline[GRID + k]!;
    const ahead = r * GRID_SIN[k]! - offset;
    rise[k] =
      r * GRID_COS[k]! -
      (Math.abs(ahead) <= arcSide ? Math.sqrt(square - ahead * ahead) : ceilingAbove(tub, ahead, reserve));
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
  for (let k = FIRST; k <= LAST; k++) {
    const top = rise[k]!;
    const left = k === FIRST ? Number.NEGATIVE_INFINITY : rise[k - 1]!;
    const right = k === LAST ? Number.NEGATIVE_INFINITY : rise[k + 1]!;
    if (top < left || top < right) continue;
    const inner = k > FIRST && k < LAST;
    const height = inner ? peakHeight(left, top, right) : top;
    if (height < best - NEAR_TIE) continue;
    const start = (k - GRID_HALF + (inner ? peakOffset(left, top, right) : 0)) * GRID_STEP;
    climb(outline, tub, offset, reserve, start, answer);
  }
  answer[NEEDED]! += tub.radius;
  answer[NEEDED_CONTACT]! += tub.radius;
}
