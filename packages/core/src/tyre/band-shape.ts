import { patchWeight, patchWeightHyperbolic } from './patch.ts';

/**
 * Closed form of the band without bending, as four coefficients. One Float64Array holds a shape; the places are
 * these. `KIND` says which basis the coefficients belong to:
 *   0  C0 e^{q₁θ} + C1 e^{−q₁θ} + C2 e^{q₂θ} + C3 e^{−q₂θ}                      two real roots, most slicks
 *   1  e^{q₁θ}(C0 cos q₂θ + C1 sin q₂θ) + e^{−q₁θ}(C2 cos q₂θ + C3 sin q₂θ)     a conjugate pair
 *   2  C0 cos q₁θ + C1 sin q₁θ + C2 cos q₂θ + C3 sin q₂θ                        imaginary roots, very soft sidewall
 */
export const KIND = 0;
export const Q1 = 1;
export const Q2 = 2;
export const C0 = 3;
export const C1 = 4;
export const C2 = 5;
export const C3 = 6;
/** Hub angle on either side up to which the shape holds, π − α: there the contact patch begins, rad. */
export const SHAPE_END = 7;
export const SHAPE_LENGTH = 8;

export const REAL_ROOTS = 0;
export const CONJUGATE_ROOTS = 1;
export const IMAGINARY_ROOTS = 2;

/** Roots closer than this (relative) are treated as one and moved apart, see `fillBandShape`. */
const DOUBLE_ROOT = 1e-10;

function fillReal(
  shape: Float64Array,
  q1: number,
  q2: number,
  load: number,
  thrust: number,
  halfPatch: number,
): void {
  shape[KIND] = REAL_ROOTS;
  shape[Q1] = q1;
  shape[Q2] = q2;
  const scale = 1 / (q1 * q1 - q2 * q2);
  // e^{−πq}/(1 − e^{−2πq}) = 1/(2 sinh πq) without the overflow of sinh.
  const decay1 = Math.exp(-Math.PI * q1);
  const decay2 = Math.exp(-Math.PI * q2);
  const common1 = (scale * patchWeightHyperbolic(q1 * halfPatch) * decay1) / (1 - decay1 * decay1);
  const common2 = (-scale * patchWeightHyperbolic(q2 * halfPatch) * decay2) / (1 - decay2 * decay2);
  shape[C0] = common1 * (q1 * load + thrust);
  shape[C1] = common1 * (q1 * load - thrust);
  shape[C2] = common2 * (q2 * load + thrust);
  shape[C3] = common2 * (q2 * load - thrust);
}

function fillConjugate(
  shape: Float64Array,
  a: number,
  b: number,
  load: number,
  thrust: number,
  halfPatch: number,
): void {
  shape[KIND] = CONJUGATE_ROOTS;
  shape[Q1] = a;
  shape[Q2] = b;
  // Φ(z) = 3(z cosh z − sinh z)/z³ at z = α(a + ib).
  const x = a * halfPatch;
  const y = b * halfPatch;
  const grown = Math.exp(x);
  const cosh = 0.5 * (grown + 1 / grown);
  const sinh = 0.5 * (grown - 1 / grown);
  const cosY = Math.cos(y);
  const sinY = Math.sin(y);
  const chRe = cosh * cosY;
  const chIm = sinh * sinY;
  const shRe = sinh * cosY;
  const shIm = cosh * sinY;
  const topRe = 3 * (x * chRe - y * chIm - shRe);
  const topIm = 3 * (x * chIm + y * chRe - shIm);
  const squareRe = x * x - y * y;
  const squareIm = 2 * x * y;
  const cubeRe = squareRe * x - squareIm * y;
  const cubeIm = squareRe * y + squareIm * x;
  const cubeNorm = cubeRe * cubeRe + cubeIm * cubeIm;
  let weightRe = (topRe * cubeRe + topIm * cubeIm) / cubeNorm;
  let weightIm = (topIm * cubeRe - topRe * cubeIm) / cubeNorm;
  if (x * x + y * y < 0.01) {
    // The cubes cancel for a short patch; the series does not.
    weightRe = 1 + squareRe / 10 + (squareRe * squareRe - squareIm * squareIm) / 280;
    weightIm = squareIm / 10 + (squareRe * squareIm) / 140;
  }
  // 1/sinh(π(a + ib)) by a decaying exponential: 2e^{−πβ}/(1 − e^{−2πβ}).
  const decay = Math.exp(-Math.PI * a);
  const turnRe = decay * Math.cos(Math.PI * b);
  const turnIm = -decay * Math.sin(Math.PI * b);
  const restRe = 1 - (turnRe * turnRe - turnIm * turnIm);
  const restIm = -2 * turnRe * turnIm;
  const restNorm = restRe * restRe + restIm * restIm;
  const inverseRe = (2 * (turnRe * restRe + turnIm * restIm)) / restNorm;
  const inverseIm = (2 * (turnIm * restRe - turnRe * restIm)) / restNorm;
  const thrustRe = weightRe * inverseRe - weightIm * inverseIm;
  const thrustIm = weightRe * inverseIm + weightIm * inverseRe;
  const loadRe = a * thrustRe - b * thrustIm;
  const loadIm = a * thrustIm + b * thrustRe;
  const half = 0.5 / (2 * a * b);
  shape[C0] = half * (load * loadIm + thrust * thrustIm);
  shape[C1] = half * (load * loadRe + thrust * thrustRe);
  shape[C2] = half * (load * loadIm - thrust * thrustIm);
  shape[C3] = half * (-load * loadRe + thrust * thrustRe);
}

function fillImaginary(
  shape: Float64Array,
  q1: number,
  q2: number,
  load: number,
  thrust: number,
  halfPatch: number,
): void {
  shape[KIND] = IMAGINARY_ROOTS;
  shape[Q1] = q1;
  shape[Q2] = q2;
  const scale = 1 / (q2 * q2 - q1 * q1);
  const common1 = (scale * patchWeight(q1 * halfPatch)) / Math.sin(Math.PI * q1);
  const common2 = (-scale * patchWeight(q2 * halfPatch)) / Math.sin(Math.PI * q2);
  shape[C0] = common1 * q1 * load;
  shape[C1] = common1 * thrust;
  shape[C2] = common2 * q2 * load;
  shape[C3] = common2 * thrust;
}

/**
 * Fills the closed form of the band without bending for one load and one thrust. Valid for |θ| < π − α.
 * Source: derived; the partial fractions of τn⁴ + (k_w − τ)n² + k_v = τ(n² + β₁²)(n² + β₂²) and the classic sum
 * Σ cos nφ/(n² + β²). At a double root k_v is moved by 2 parts in 10⁹, which moves the shape by less.
 * @param shape  SHAPE_LENGTH numbers, overwritten
 * @param radius  R, m, > 0
 * @param radialStiffness  k_w, N/m², > 0
 * @param tangentialStiffness  k_v, N/m², > 0
 * @param tension  τ, N/m², > 0 (at τ = 0 use `bandSeries`)
 * @param load  F_z on this tyre, N
 * @param thrust  F_x on this tyre, N
 * @param halfPatch  α, rad
 */
export function fillBandShape(
  shape: Float64Array,
  radius: number,
  radialStiffness: number,
  tangentialStiffness: number,
  tension: number,
  load: number,
  thrust: number,
  halfPatch: number,
): void {
  shape[SHAPE_END] = Math.PI - halfPatch;
  const halfSum = (radialStiffness - tension) / (2 * tension);
  let product = tangentialStiffness / tension;
  let split = halfSum * halfSum - product;
  if (Math.abs(split) < DOUBLE_ROOT * product) {
    product *= 1 - 2e-9;
    split = halfSum * halfSum - product;
  }
  const unit = -1 / (2 * radius * tension);
  const scaledLoad = unit * load;
  const scaledThrust = unit * thrust;
  if (split < 0) {
    const modulus = Math.sqrt(product);
    const a = Math.sqrt(0.5 * (modulus + halfSum));
    const b = Math.sqrt(0.5 * (modulus - halfSum));
    fillConjugate(shape, a, b, scaledLoad, scaledThrust, halfPatch);
    return;
  }
  const root = Math.sqrt(split);
  if (halfSum > 0) {
    const larger = halfSum + root;
    fillReal(shape, Math.sqrt(larger), Math.sqrt(product / larger), scaledLoad, scaledThrust, halfPatch);
  } else {
    const larger = root - halfSum;
    fillImaginary(shape, Math.sqrt(larger), Math.sqrt(product / larger), scaledLoad, scaledThrust, halfPatch);
  }
}

/** Outward displacement of the band, m, at a hub angle in rad, |θ| < π − α. */
export function bandDisplacement(shape: Float64Array, angle: number): number {
  const q1 = shape[Q1]!;
  const q2 = shape[Q2]!;
  const kind = shape[KIND]!;
  if (kind === REAL_ROOTS) {
    const e1 = Math.exp(q1 * angle);
    const e2 = Math.exp(q2 * angle);
    return shape[C0]! * e1 + shape[C1]! / e1 + shape[C2]! * e2 + shape[C3]! / e2;
  }
  if (kind === CONJUGATE_ROOTS) {
    const e = Math.exp(q1 * angle);
    const c = Math.cos(q2 * angle);
    const s = Math.sin(q2 * angle);
    return e * (shape[C0]! * c + shape[C1]! * s) + (shape[C2]! * c + shape[C3]! * s) / e;
  }
  return (
    shape[C0]! * Math.cos(q1 * angle) +
    shape[C1]! * Math.sin(q1 * angle) +
    shape[C2]! * Math.cos(q2 * angle) +
    shape[C3]! * Math.sin(q2 * angle)
  );
}

/** The part of that displacement that the vertical load makes, m: the even part in θ; thrust makes the odd one. */
export function loadBulge(shape: Float64Array, angle: number): number {
  return 0.5 * (bandDisplacement(shape, angle) + bandDisplacement(shape, -angle));
}
