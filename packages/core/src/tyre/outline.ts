import {
  bandDisplacement,
  C0,
  C1,
  C2,
  C3,
  CONJUGATE_ROOTS,
  KIND,
  Q1,
  Q2,
  REAL_ROOTS,
  SHAPE_LENGTH,
} from './band-shape.ts';
import { LOBE_HALF_WIDTH, lobeAllowance } from './lobe.ts';

/**
 * Outer edge of the tyre in hub angle: r(θ) = base + w(θ) + ℓ(θ), base = R₀(p) + g + run-out. One Float64Array
 * holds the band's closed form, the base, the lobe and a table every 10° from −120° to 120°: radii, points, and the
 * points' derivatives by hub angle.
 */
export const BASE = SHAPE_LENGTH;
export const LOBE_HEIGHT = SHAPE_LENGTH + 1;
export const LOBE_MIDDLE = SHAPE_LENGTH + 2;
export const GRID = SHAPE_LENGTH + 3;

/** Grid points on either side of straight up, and the angle between them in rad. */
export const GRID_HALF = 12;
export const GRID_STEP = Math.PI / 18;
export const GRID_COUNT = 2 * GRID_HALF + 1;
/** The table's points from the wheel centre, m ahead and m above. */
export const TABLE_X = GRID + GRID_COUNT;
export const TABLE_Z = TABLE_X + GRID_COUNT;
/** Derivatives of those by hub angle, m/rad. */
export const TABLE_X_SLOPE = TABLE_Z + GRID_COUNT;
export const TABLE_Z_SLOPE = TABLE_X_SLOPE + GRID_COUNT;
/** Radii in m that the outline does not exceed within ±100°, where the required height is searched, and within ±120°. */
export const LARGEST = TABLE_Z_SLOPE + GRID_COUNT;
export const WIDEST = LARGEST + 1;
export const OUTLINE_LENGTH = WIDEST + 1;

/** Table points on either side within ±100°. */
export const SEARCHED = 10;

/** Length of a lobe's table: allowances, then their derivatives by hub angle. */
export const LOBE_LENGTH = 2 * GRID_COUNT;

/** Beyond the parabolas of the table, m: what is left for the third derivative of the steepest outlines. */
const HIDDEN = 2e-4;

/** Sine and cosine of the grid's angles. */
const GRID_SIN = Float64Array.from({ length: GRID_COUNT }, (_, k) => Math.sin((k - GRID_HALF) * GRID_STEP));
const GRID_COS = Float64Array.from({ length: GRID_COUNT }, (_, k) => Math.cos((k - GRID_HALF) * GRID_STEP));

/** Lobe allowance on the grid, m, and its derivative, m/rad; one table of LOBE_LENGTH serves all moments of a draw. */
export function fillLobe(lobe: Float64Array, height: number, middle: number): void {
  const rate = Math.PI / LOBE_HALF_WIDTH;
  for (let k = 0; k < GRID_COUNT; k++) {
    const away = (k - GRID_HALF) * GRID_STEP - middle;
    const on = Math.abs(away) < LOBE_HALF_WIDTH;
    lobe[k] = on ? height * 0.5 * (1 + Math.cos(rate * away)) : 0;
    lobe[GRID_COUNT + k] = on ? -height * 0.5 * rate * Math.sin(rate * away) : 0;
  }
}

/**
 * Fills the table of radii and points from the band's coefficients, the base and the lobe already in place.
 * The exponentials run as powers of one step: the table only finds where to look, the answer is read from the
 * closed form.
 */
export function fillOutlineGrid(outline: Float64Array, lobe: Float64Array): void {
  fillBandTable(outline);
  const base = outline[BASE]!;
  let left = 0;
  let first = 0;
  let largest = 0;
  let sides = 0;
  for (let k = 0; k < GRID_COUNT; k++) {
    const r = base + outline[GRID + k]! + lobe[k]!;
    const slope = outline[TABLE_X_SLOPE + k]! + lobe[GRID_COUNT + k]!;
    const sin = GRID_SIN[k]!;
    const cos = GRID_COS[k]!;
    outline[GRID + k] = r;
    outline[TABLE_X + k] = r * sin;
    outline[TABLE_Z + k] = r * cos;
    outline[TABLE_X_SLOPE + k] = slope * sin + r * cos;
    outline[TABLE_Z_SLOPE + k] = slope * cos - r * sin;
    if (k > 0) {
      // No cubic rises above its ends by more than 4/27 of its slopes there.
      const rise = Math.max(first, 0) - Math.min(slope, 0);
      const most = Math.max(left, r) + (4 / 27) * GRID_STEP * rise;
      if (k > GRID_HALF - SEARCHED && k <= GRID_HALF + SEARCHED) {
        if (!(most <= largest)) largest = most;
      } else if (!(most <= sides)) sides = most;
    }
    left = r;
    first = slope;
  }
  outline[LARGEST] = largest + HIDDEN;
  outline[WIDEST] = Math.max(largest, sides) + HIDDEN;
}

/** The band on the grid, m, where the radii go, and its derivative, m/rad, where those of x go. */
function fillBandTable(outline: Float64Array): void {
  const kind = outline[KIND]!;
  const q1 = outline[Q1]!;
  const q2 = outline[Q2]!;
  const c0 = outline[C0]!;
  const c1 = outline[C1]!;
  const c2 = outline[C2]!;
  const c3 = outline[C3]!;
  const middle = GRID + GRID_HALF;
  const slopes = TABLE_X_SLOPE + GRID_HALF;
  if (kind === REAL_ROOTS) {
    const step1 = Math.exp(q1 * GRID_STEP);
    const step2 = Math.exp(q2 * GRID_STEP);
    const back1 = 1 / step1;
    const back2 = 1 / step2;
    let e1 = 1;
    let e2 = 1;
    let f1 = 1;
    let f2 = 1;
    for (let k = 0; k <= GRID_HALF; k++) {
      outline[middle + k] = c0 * e1 + c1 * f1 + c2 * e2 + c3 * f2;
      outline[middle - k] = c0 * f1 + c1 * e1 + c2 * f2 + c3 * e2;
      outline[slopes + k] = q1 * (c0 * e1 - c1 * f1) + q2 * (c2 * e2 - c3 * f2);
      outline[slopes - k] = q1 * (c0 * f1 - c1 * e1) + q2 * (c2 * f2 - c3 * e2);
      e1 *= step1;
      e2 *= step2;
      f1 *= back1;
      f2 *= back2;
    }
    return;
  }
  if (kind === CONJUGATE_ROOTS) {
    const turn = q2 * GRID_STEP;
    const cosStep = Math.cos(turn);
    const sinStep = Math.sin(turn);
    const step = Math.exp(q1 * GRID_STEP);
    const back = 1 / step;
    let cos = 1;
    let sin = 0;
    let e = 1;
    let f = 1;
    for (let k = 0; k <= GRID_HALF; k++) {
      for (let way = -1; way <= 1; way += 2) {
        const s = way * sin;
        const rising = way < 0 ? f : e;
        const falling = way < 0 ? e : f;
        const up = rising * (c0 * cos + c1 * s);
        const down = falling * (c2 * cos + c3 * s);
        const upTurn = rising * (c1 * cos - c0 * s);
        const downTurn = falling * (c3 * cos - c2 * s);
        outline[middle + way * k] = up + down;
        outline[slopes + way * k] = q1 * (up - down) + q2 * (upTurn + downTurn);
      }
      const next = cos * cosStep - sin * sinStep;
      sin = sin * cosStep + cos * sinStep;
      cos = next;
      e *= step;
      f *= back;
    }
    return;
  }
  for (let k = -GRID_HALF; k <= GRID_HALF; k++) {
    const turn1 = q1 * k * GRID_STEP;
    const turn2 = q2 * k * GRID_STEP;
    outline[middle + k] = bandDisplacement(outline, k * GRID_STEP);
    outline[slopes + k] =
      q1 * (c1 * Math.cos(turn1) - c0 * Math.sin(turn1)) + q2 * (c3 * Math.cos(turn2) - c2 * Math.sin(turn2));
  }
}

/** Radius of the outline at a hub angle, m; θ in rad, short of the contact patch: |θ| < π − α, `outline[SHAPE_END]`. */
export function outlineRadius(outline: Float64Array, angle: number): number {
  return (
    outline[BASE]! +
    bandDisplacement(outline, angle) +
    lobeAllowance(angle, outline[LOBE_HEIGHT]!, outline[LOBE_MIDDLE]!)
  );
}

/**
 * Radius and its first and second derivative by hub angle at θ: jet[0] m, jet[1] m/rad, jet[2] m/rad².
 * @param jet  3 numbers, overwritten
 */
export function fillOutlineJet(outline: Float64Array, angle: number, jet: Float64Array): void {
  const q1 = outline[Q1]!;
  const q2 = outline[Q2]!;
  const c0 = outline[C0]!;
  const c1 = outline[C1]!;
  const c2 = outline[C2]!;
  const c3 = outline[C3]!;
  const kind = outline[KIND]!;
  let r: number;
  let slope: number;
  let bend: number;
  if (kind === REAL_ROOTS) {
    const e1 = Math.exp(q1 * angle);
    const e2 = Math.exp(q2 * angle);
    const a = c0 * e1;
    const b = c1 / e1;
    const c = c2 * e2;
    const d = c3 / e2;
    r = a + b + c + d;
    slope = q1 * (a - b) + q2 * (c - d);
    bend = q1 * q1 * (a + b) + q2 * q2 * (c + d);
  } else if (kind === CONJUGATE_ROOTS) {
    const e = Math.exp(q1 * angle);
    const cos = Math.cos(q2 * angle);
    const sin = Math.sin(q2 * angle);
    const up = e * (c0 * cos + c1 * sin);
    const upTurn = e * (c1 * cos - c0 * sin);
    const down = (c2 * cos + c3 * sin) / e;
    const downTurn = (c3 * cos - c2 * sin) / e;
    r = up + down;
    slope = q1 * (up - down) + q2 * (upTurn + downTurn);
    bend = (q1 * q1 - q2 * q2) * (up + down) + 2 * q1 * q2 * (upTurn - downTurn);
  } else {
    const cos1 = Math.cos(q1 * angle);
    const sin1 = Math.sin(q1 * angle);
    const cos2 = Math.cos(q2 * angle);
    const sin2 = Math.sin(q2 * angle);
    r = c0 * cos1 + c1 * sin1 + c2 * cos2 + c3 * sin2;
    slope = q1 * (c1 * cos1 - c0 * sin1) + q2 * (c3 * cos2 - c2 * sin2);
    bend = -q1 * q1 * (c0 * cos1 + c1 * sin1) - q2 * q2 * (c2 * cos2 + c3 * sin2);
  }
  r += outline[BASE]!;
  const away = angle - outline[LOBE_MIDDLE]!;
  if (Math.abs(away) < LOBE_HALF_WIDTH) {
    const rate = Math.PI / LOBE_HALF_WIDTH;
    const half = 0.5 * outline[LOBE_HEIGHT]!;
    const cos = Math.cos(rate * away);
    r += half * (1 + cos);
    slope -= half * rate * Math.sin(rate * away);
    bend -= half * rate * rate * cos;
  }
  jet[0] = r;
  jet[1] = slope;
  jet[2] = bend;
}

/**
 * A radius in m that the outline does not exceed between the table's points `first` and `last`: the largest of them
 * and what their parabolas could hide between two.
 */
export function largestRadius(outline: Float64Array, first: number, last: number): number {
  const low = GRID + Math.max(0, first);
  const high = GRID + Math.min(GRID_COUNT - 1, last);
  let largest = 0;
  let bend = 0;
  for (let k = low; k <= high; k++) {
    const r = outline[k]!;
    if (r > largest) largest = r;
    if (k > low && k < high) {
      const here = Math.abs(outline[k - 1]! - 2 * r + outline[k + 1]!);
      if (here > bend) bend = here;
    }
  }
  return largest + 0.5 * bend + HIDDEN;
}
