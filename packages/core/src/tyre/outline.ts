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
 * holds the band's closed form, the base, the lobe and a table every 10° from −120° to 120°: radii, then points.
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
export const OUTLINE_LENGTH = TABLE_Z + GRID_COUNT;

/** Beyond the parabolas of the table, m: what is left for the third derivative of the steepest outlines. */
const HIDDEN = 2e-4;

/** Sine and cosine of the grid's angles. */
const GRID_SIN = Float64Array.from({ length: GRID_COUNT }, (_, k) => Math.sin((k - GRID_HALF) * GRID_STEP));
const GRID_COS = Float64Array.from({ length: GRID_COUNT }, (_, k) => Math.cos((k - GRID_HALF) * GRID_STEP));

/** Lobe allowance on the grid, m; one table serves all moments of a draw. */
export function fillLobe(lobe: Float64Array, height: number, middle: number): void {
  for (let k = 0; k < GRID_COUNT; k++) lobe[k] = lobeAllowance((k - GRID_HALF) * GRID_STEP, height, middle);
}

/**
 * Fills the table of radii and points from the band's coefficients, the base and the lobe already in place.
 * The exponentials run as powers of one step: the table only finds where to look, the answer is read from the
 * closed form.
 */
export function fillOutlineGrid(outline: Float64Array, lobe: Float64Array): void {
  fillRadii(outline, lobe);
  for (let k = 0; k < GRID_COUNT; k++) {
    const r = outline[GRID + k]!;
    outline[TABLE_X + k] = r * GRID_SIN[k]!;
    outline[TABLE_Z + k] = r * GRID_COS[k]!;
  }
}

function fillRadii(outline: Float64Array, lobe: Float64Array): void {
  const kind = outline[KIND]!;
  const base = outline[BASE]!;
  const c0 = outline[C0]!;
  const c1 = outline[C1]!;
  const c2 = outline[C2]!;
  const c3 = outline[C3]!;
  const middle = GRID + GRID_HALF;
  if (kind === REAL_ROOTS) {
    const step1 = Math.exp(outline[Q1]! * GRID_STEP);
    const step2 = Math.exp(outline[Q2]! * GRID_STEP);
    const back1 = 1 / step1;
    const back2 = 1 / step2;
    let e1 = 1;
    let e2 = 1;
    let f1 = 1;
    let f2 = 1;
    for (let k = 0; k <= GRID_HALF; k++) {
      outline[middle + k] = base + c0 * e1 + c1 * f1 + c2 * e2 + c3 * f2 + lobe[GRID_HALF + k]!;
      outline[middle - k] = base + c0 * f1 + c1 * e1 + c2 * f2 + c3 * e2 + lobe[GRID_HALF - k]!;
      e1 *= step1;
      e2 *= step2;
      f1 *= back1;
      f2 *= back2;
    }
    return;
  }
  const turn = outline[Q2]! * GRID_STEP;
  const cosStep = Math.cos(turn);
  const sinStep = Math.sin(turn);
  let cos = 1;
  let sin = 0;
  if (kind === CONJUGATE_ROOTS) {
    const step = Math.exp(outline[Q1]! * GRID_STEP);
    const back = 1 / step;
    let e = 1;
    let f = 1;
    for (let k = 0; k <= GRID_HALF; k++) {
      outline[middle + k] =
        base + e * (c0 * cos + c1 * sin) + f * (c2 * cos + c3 * sin) + lobe[GRID_HALF + k]!;
      outline[middle - k] =
        base + f * (c0 * cos - c1 * sin) + e * (c2 * cos - c3 * sin) + lobe[GRID_HALF - k]!;
      const next = cos * cosStep - sin * sinStep;
      sin = sin * cosStep + cos * sinStep;
      cos = next;
      e *= step;
      f *= back;
    }
    return;
  }
  for (let k = 0; k < GRID_COUNT; k++) {
    outline[GRID + k] = base + bandDisplacement(outline, (k - GRID_HALF) * GRID_STEP) + lobe[k]!;
  }
}

/** Radius of the outline at a hub angle, m; θ in rad, |θ| ≤ 120°. */
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
