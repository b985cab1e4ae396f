import { airTension, type Band, harmonicStiffness } from './band.ts';
import { patchHalfAngle, patchWeight } from './patch.ts';

/**
 * Harmonics in a deflection sum: terms fall as n⁻⁶ once nα is past 3, so a shorter patch wants more of them. The sum is
 * followed to nα of 9.6, 96 terms at least: they leave less than 10⁻⁷ of the sum at a patch half-angle of 0.3 rad and
 * 10⁻⁵ at 0.1 rad and below. The most leave 1 µm of the drop where the patch, and with it the load, is next to nothing.
 */
const LEAST_TERMS = 96;
const MOST_TERMS = 4096;
const REACHED = 9.6;

/**
 * Axle drop per unit of load from the band's harmonics, m/N: Σ f_n²/K_n. Sine and cosine of nα come from those of
 * (n − 1)α: over 96 steps that costs 2 parts in 10¹⁴ and saves five sixths of the time.
 */
export function bandCompliance(band: Band, halfPatch: number): number {
  const sinStep = Math.sin(halfPatch);
  const cosStep = Math.cos(halfPatch);
  let sin = 0;
  let cos = 1;
  let sum = 0;
  const terms = Math.min(MOST_TERMS, Math.max(LEAST_TERMS, Math.ceil(REACHED / halfPatch)));
  for (let n = 1; n <= terms; n++) {
    const next = cos * cosStep - sin * sinStep;
    sin = sin * cosStep + cos * sinStep;
    cos = next;
    const x = n * halfPatch;
    const weight = x < 0.1 ? patchWeight(x) : (3 * (sin - x * cos)) / (x * x * x);
    sum += (weight * weight) / harmonicStiffness(band, n);
  }
  return sum;
}

/**
 * Free radius less loaded radius, m, standing: F_z Σ f_n²/K_n + Rα²/10.
 * The second term is the curvature of the free band over a parabolic patch. Source: derived (mean over the patch).
 * The drop at the middle of the patch differs from it by up to 6 % for a slick at 45 kPa and more where the pressure
 * gives a longer patch than a stiff band flattens; k_w is fitted with this same formula, so most of that cancels.
 */
export function axleDrop(band: Band, load: number, halfPatch: number): number {
  return load * bandCompliance(band, halfPatch) + (band.radius * halfPatch * halfPatch) / 10;
}

/** What a shop measures to fix a tyre's sidewall: axle drop under a load at one pressure. */
export interface DeflectionMeasurement {
  /** Gauge pressure, Pa. */
  pressure: number;
  /** Vertical load, N. */
  load: number;
  /** Free radius less loaded radius, m. */
  drop: number;
  /** Free radius at that pressure, m. */
  freeRadius: number;
  sectionWidth: number;
  treadWidth: number;
  /** p₀ of the contact patch, Pa. */
  carcassPressure: number;
  /** k_v/k_w, 1. */
  tangentialRatio: number;
}

/**
 * Radial spring of the band k_w, N/m², that gives the measured axle drop.
 * @throws RangeError when no sidewall gives that drop: the air alone is already stiffer (drop too large), or the
 * curvature of the patch alone drops more (drop too small)
 */
export function radialStiffnessFromDrop(measured: DeflectionMeasurement): number {
  const { pressure, load, freeRadius: radius } = measured;
  const tension = airTension(pressure, measured.sectionWidth, radius);
  const alpha = patchHalfAngle(load, pressure, measured.carcassPressure, measured.treadWidth, radius);
  const dropAt = (stiffness: number): number =>
    axleDrop(
      {
        radius,
        radialStiffness: stiffness,
        tangentialStiffness: stiffness * measured.tangentialRatio,
        airTension: tension,
        bending: 0,
      },
      load,
      alpha,
    );
  let soft = Math.log(1e3);
  let stiff = Math.log(1e9);
  if (!(measured.drop < dropAt(Math.exp(soft)) && measured.drop > dropAt(Math.exp(stiff)))) {
    throw new RangeError(
      `an axle drop of ${measured.drop} m under ${load} N at ${pressure} Pa fits no sidewall; ` +
        `allowed is ${dropAt(Math.exp(stiff))} to ${dropAt(Math.exp(soft))} m`,
    );
  }
  while (stiff - soft > 1e-13) {
    const middle = 0.5 * (soft + stiff);
    if (middle === soft || middle === stiff) break;
    if (dropAt(Math.exp(middle)) > measured.drop) soft = middle;
    else stiff = middle;
  }
  return Math.exp(0.5 * (soft + stiff));
}
