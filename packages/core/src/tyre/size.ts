import { within } from '../check.ts';

export interface NominalSize {
  /** Section height, m. */
  sectionHeight: number;
  /** Overall diameter, m: unloaded, at rest. */
  overallDiameter: number;
}

/**
 * Nominal size from a metric marking such as 315/35R17: the marking's arithmetic, not a measured tyre.
 * @param width  section width of the marking, m, 0.1 to 0.6
 * @param aspect  section height over section width, 1 (0.35 for "35"), 0.2 to 1
 * @param rim  rim diameter, m, 0.25 to 0.7
 * @throws RangeError outside those ranges
 */
export function nominalSize(width: number, aspect: number, rim: number): NominalSize {
  within('section width', width, 0.1, 0.6, 'm');
  within('aspect ratio', aspect, 0.2, 1, '');
  within('rim diameter', rim, 0.25, 0.7, 'm');
  const sectionHeight = width * aspect;
  return { sectionHeight, overallDiameter: 2 * sectionHeight + rim };
}

/** Distance taped round the free tyre, m, from its free radius in m: 2πR₀. Not the distance per turn under load. */
export const rollout = (freeRadius: number): number => 2 * Math.PI * freeRadius;

/** Free radius, m, from the taped rollout in m. */
export const freeRadiusFromRollout = (length: number): number => length / (2 * Math.PI);

/**
 * Free radius at a pressure, m: R₀(p_ref) + (dR/dp)(p − p_ref).
 * Linear between the pressures at which the shop taped the rollout; do not stretch it far beyond them.
 * @param referenceRadius  m, at `referencePressure`
 * @param radiusPerPressure  m/Pa
 * @param pressure  gauge, Pa
 * @param referencePressure  gauge, Pa
 */
export function freeRadius(
  referenceRadius: number,
  radiusPerPressure: number,
  pressure: number,
  referencePressure: number,
): number {
  return referenceRadius + radiusPerPressure * (pressure - referencePressure);
}
