import { patchWeight } from './patch.ts';

/** Share of the section width on which the air tensions the tread band, 1. Prior: engineering judgement. */
export const TENSIONED_WIDTH_SHARE = 0.8;

/** A tread band that does not stretch, on springs, tensioned by air. */
export interface Band {
  /** R, grown radius, m. */
  radius: number;
  /** k_w, radial spring per length of band, N/m². */
  radialStiffness: number;
  /** k_v, tangential spring per length of band, N/m². */
  tangentialStiffness: number;
  /** τ, air tension over radius, N/m². */
  airTension: number;
  /** EI, bending stiffness, N·m²; the outline of a run uses 0. */
  bending: number;
}

/** Air tension of the band over its radius, N/m²: p b_e/R with b_e = 0.8 b. */
export function airTension(pressure: number, sectionWidth: number, radius: number): number {
  return (pressure * TENSIONED_WIDTH_SHARE * sectionWidth) / radius;
}

/**
 * Stiffness of harmonic n of the band, N/m: πR[EI/R⁴ (n² − 1)² + τ(n² − 1) + k_w + k_v/n²].
 * n = 1 is the rigid ring on its springs, πR(k_w + k_v). Source: derived; without springs it gives the classic
 * collapse pressure 3EI/R³ at n = 2 (Lévy).
 * @param n  harmonic, whole, ≥ 1
 */
export function harmonicStiffness(band: Band, n: number): number {
  const m = n * n - 1;
  const R = band.radius;
  return (
    Math.PI *
    R *
    ((band.bending / (R * R * R * R)) * m * m +
      band.airTension * m +
      band.radialStiffness +
      band.tangentialStiffness / (n * n))
  );
}

/**
 * Outward displacement of the band at a hub angle, m, as a sum over harmonics:
 * −Σ (F_z f_n/K_n) cos nφ − Σ (F_x f_n/(n K_n)) sin nφ, φ = θ − π, patch at θ = π with parabolic pressure.
 * The reference for the closed form, and the way when bending counts.
 * @param angle  θ from straight up, forward positive, rad
 * @param load  F_z on this tyre, N
 * @param thrust  F_x on this tyre, N, forward on the car positive
 * @param halfPatch  α, rad
 * @param terms  number of harmonics; 4,000 agree with the closed form to 10⁻¹² m
 */
export function bandSeries(
  band: Band,
  angle: number,
  load: number,
  thrust: number,
  halfPatch: number,
  terms = 4000,
): number {
  const phi = angle - Math.PI;
  let sum = 0;
  for (let n = terms; n >= 1; n--) {
    const weight = patchWeight(n * halfPatch) / harmonicStiffness(band, n);
    sum -= weight * (load * Math.cos(n * phi) + (thrust / n) * Math.sin(n * phi));
  }
  return sum;
}
