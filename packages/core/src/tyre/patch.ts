/** Largest half-angle of the contact patch that the band model takes, rad. */
export const LARGEST_PATCH = 0.6;

/**
 * Half-angle of the contact patch seen from the wheel centre, rad: F_z/(2(p + p₀) b_t R), at most 0.6.
 * @param load  vertical force on this tyre, N, ≥ 0
 * @param pressure  hot gauge pressure, Pa
 * @param carcassPressure  what the carcass carries without air, Pa
 * @param treadWidth  b_t, m
 * @param radius  grown radius R, m
 */
export function patchHalfAngle(
  load: number,
  pressure: number,
  carcassPressure: number,
  treadWidth: number,
  radius: number,
): number {
  return Math.min(LARGEST_PATCH, load / (2 * (pressure + carcassPressure) * treadWidth * radius));
}

/**
 * Fourier weight of a parabolic patch pressure: f(x) = 3(sin x − x cos x)/x³, x = nα; f(0) = 1.
 * The short series below 0.1 avoids the cancellation of the closed form.
 */
export function patchWeight(x: number): number {
  if (Math.abs(x) < 0.1) {
    const y = x * x;
    return 1 - y / 10 + (y * y) / 280 - (y * y * y) / 15120;
  }
  return (3 * (Math.sin(x) - x * Math.cos(x))) / (x * x * x);
}

/** The same weight of an imaginary argument: Φ(x) = 3(x cosh x − sinh x)/x³; Φ(0) = 1. */
export function patchWeightHyperbolic(x: number): number {
  if (Math.abs(x) < 0.1) {
    const y = x * x;
    return 1 + y / 10 + (y * y) / 280 + (y * y * y) / 15120;
  }
  const grown = Math.exp(x);
  const shrunk = 1 / grown;
  return (1.5 * (x * (grown + shrunk) - (grown - shrunk))) / (x * x * x);
}
