/**
 * Tread speed at which the band runs into standing waves, m/s:
 * v² = R²/(μ(1 − χ)) · min over n ≥ 2 of [EI/R⁴ (n² − 1) + τ + (k_w + k_v/n²)/(n² − 1)].
 * A warning, not a design value: standing waves are the limit of the band model. Source: derived (ring on springs
 * with only the share χ of the centrifugal load carried as hoop tension).
 * @param band.radius  R, m
 * @param band.massPerLength  μ, kg/m
 * @param band.airTension  τ, N/m²
 * @param band.radialStiffness  k_w, N/m²
 * @param band.tangentialStiffness  k_v, N/m²
 * @param bending  EI, N·m², ≥ 0
 * @param hoopShare  χ, 0 to below 1
 * @throws RangeError when χ is outside 0…1
 */
export function criticalSpeed(
  band: {
    radius: number;
    massPerLength: number;
    airTension: number;
    radialStiffness: number;
    tangentialStiffness: number;
  },
  bending: number,
  hoopShare: number,
): number {
  if (!(hoopShare >= 0 && hoopShare < 1)) {
    throw new RangeError(
      `share of the centrifugal load carried as hoop tension is ${hoopShare}; allowed is 0 to below 1`,
    );
  }
  const { radius: R } = band;
  let least = Number.POSITIVE_INFINITY;
  for (let n = 2; n <= 400; n++) {
    const m = n * n - 1;
    const stiffness =
      (bending / R ** 4) * m +
      band.airTension +
      (band.radialStiffness + band.tangentialStiffness / (n * n)) / m;
    if (stiffness > least) break;
    least = stiffness;
  }
  return Math.sqrt(((R * R) / (band.massPerLength * (1 - hoopShare))) * least);
}

/**
 * Share χ of the centrifugal load left to hoop tension if all growth stretches the springs k_w alone, clipped to
 * 0…0.95: 1 − k_w g R/(μv²). A lower bound.
 */
export function hoopShareFromGrowth(
  radialStiffness: number,
  growth: number,
  radius: number,
  massPerLength: number,
  speed: number,
): number {
  const share = 1 - (radialStiffness * growth * radius) / (massPerLength * speed * speed);
  return Math.min(0.95, Math.max(0, share));
}
