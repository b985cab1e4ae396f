/** Share of the tyre's mass that sits in the tread band, 1. Prior: engineering judgement. */
export const BAND_MASS_SHARE = 0.57;

/** Speed at which the radial growth law is scaled, m/s. */
export const RADIAL_REFERENCE_SPEED = 50;

/** Inflation pressure at which the radial growth fraction q_ref holds, Pa: 32 psi. */
export const RADIAL_REFERENCE_PRESSURE = 32 * 6894.757293168361;

const BIAS_SPEED_FACTOR = 0.77;

/** Mass of the tread band per length of circumference, kg/m: 0.57 m/(2πR₀). */
export function bandMassPerLength(mass: number, freeRadius: number): number {
  return (BAND_MASS_SHARE * mass) / (2 * Math.PI * freeRadius);
}

/**
 * Speed at which a bias slick's growth begins to flatten, m/s: factor · √((p + p₀) b R₀/μ).
 * Source: derived (centrifugal load against the pressure that holds the band), its factor 0.77 a prior.
 * @param pressure  hot gauge pressure, Pa, > −p₀
 * @param carcassPressure  p₀, what the carcass carries without air, Pa
 * @param sectionWidth  b, m
 * @param freeRadius  R₀, m
 * @param bandMass  μ, kg/m
 */
export function biasGrowthSpeed(
  pressure: number,
  carcassPressure: number,
  sectionWidth: number,
  freeRadius: number,
  bandMass: number,
): number {
  return BIAS_SPEED_FACTOR * Math.sqrt(((pressure + carcassPressure) * sectionWidth * freeRadius) / bandMass);
}

/**
 * Radius gained by a bias-ply tyre at speed, m: A ln(1 + (v/v_c)²).
 * Grows as v² at low speed, as a linear spring under centrifugal load does, and ever more slowly beyond, without
 * a ceiling. No measured growth curve of a drag slick was found in open literature: A and v_c are priors to be
 * corrected by what the shop measures.
 * @param speed  tread speed, slip included, m/s, ≥ 0
 * @param scale  A, m
 * @param growthSpeed  v_c, m/s, > 0
 * @example biasGrowth(40, 0.022, 40) // 0.0152492
 */
export function biasGrowth(speed: number, scale: number, growthSpeed: number): number {
  const ratio = speed / growthSpeed;
  return scale * Math.log(1 + ratio * ratio);
}

/**
 * Radius gained by a radial tyre at speed, m: q R₀ (v/50 m/s)².
 * Form: Magic Formula 6.x (Pacejka, Tire and Vehicle Dynamics, 2012, ch. 4), growth in proportion to v².
 * @param speed  tread speed, m/s, ≥ 0
 * @param freeRadius  R₀, m
 * @param fraction  q at the pressure in hand, 1
 */
export function radialGrowth(speed: number, freeRadius: number, fraction: number): number {
  const ratio = speed / RADIAL_REFERENCE_SPEED;
  return fraction * freeRadius * ratio * ratio;
}

/**
 * Growth fraction of a radial at a pressure, 1: q_ref (p_ref + p₀)/(p + p₀). More pressure, less growth.
 * @param referenceFraction  q_ref at 32 psi, 1
 * @param pressure  hot gauge pressure, Pa
 * @param carcassPressure  p₀, Pa
 */
export function radialGrowthFraction(
  referenceFraction: number,
  pressure: number,
  carcassPressure: number,
): number {
  return (referenceFraction * (RADIAL_REFERENCE_PRESSURE + carcassPressure)) / (pressure + carcassPressure);
}

/**
 * Hoop stress of a thin rotating ring, Pa: ρV², whatever its radius. A limit on what a band can carry.
 * Source: textbook (Timoshenko, Strength of Materials), from memory.
 */
export const hoopStress = (density: number, speed: number): number => density * speed * speed;
