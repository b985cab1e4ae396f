import { BLOCK, fillStandardNormals } from '../stream.ts';

/** Centres of a mixture, each a point of normal space: by how much every direction is moved. */
export interface Centres {
  points: Float64Array[];
}

export const NO_CENTRES: Centres = { points: [] };

/** Share of the draws that stay plain: it bounds every weight at ten (defensive mixture, Hesterberg 1995). */
const PLAIN_SHARE = 0.1;

/** Draws of a block that are moved to each centre; the rest stay plain. */
export function drawsPerCentre(centres: number): { moved: number; plain: number } {
  const moved = centres === 0 ? 0 : Math.floor(((1 - PLAIN_SHARE) * BLOCK) / centres);
  return { moved, plain: BLOCK - moved * centres };
}

/** Adds one direction's part of a centre's exponents: the logarithm of its law over the plain one. */
export function addExponents(shift: number, normals: Float64Array, exponents: Float64Array): void {
  // Most centres move few directions.
  if (shift === 0) return;
  const constant = 0.5 * shift * shift;
  for (let i = 0; i < exponents.length; i++) exponents[i]! += shift * normals[i]! - constant;
}

/** Turns exponents into densities about a centre over the plain one, in their place. */
export function exponentiate(exponents: Float64Array): void {
  for (let i = 0; i < exponents.length; i++) exponents[i] = Math.exp(exponents[i]!);
}

/** Density of the mixture over the plain one at every draw, at least PLAIN_SHARE, from the densities about each centre. */
export function mixedRatios(densities: readonly Float64Array[], count: number): Float64Array {
  const { moved, plain } = drawsPerCentre(densities.length);
  const ratios = new Float64Array(count).fill(plain / BLOCK);
  const share = moved / BLOCK;
  for (const density of densities) {
    for (let i = 0; i < count; i++) ratios[i]! += share * density[i]!;
  }
  return ratios;
}

/** Whether a direction of a space, by its place, is drawn; the others do not count. */
export type DirectionFilter = (direction: number) => boolean;

/**
 * Density of the mixture over the plain one at the first `count` plain draws of one block: whether the mixture leads to
 * where they lie. 1 without centres.
 * @param streams  of every direction
 */
export function plainDensityRatios(
  streams: readonly string[],
  { points }: Centres,
  only: DirectionFilter,
  seed: number | string,
  block: number,
  count: number,
): Float64Array {
  const densities = points.map(() => new Float64Array(count));
  const normals = new Float64Array(count);
  streams.forEach((stream, d) => {
    if (!only(d) || points.every((point) => point[d] === 0)) return;
    fillStandardNormals(seed, stream, block, normals, count);
    points.forEach((point, c) => {
      addExponents(point[d]!, normals, densities[c]!);
    });
  });
  for (const density of densities) exponentiate(density);
  return mixedRatios(densities, count);
}

/** One block of a mixture's draws. */
export interface MixtureBlock {
  /** Standard normal numbers, [direction][draw]; empty for those not drawn. */
  normals: Float64Array[];
  /** Density of the mixture over the plain one: the inverse of a draw's weight. */
  ratios: Float64Array;
}

/**
 * Draws one block from the mixture: the plain law, moved to each centre for its share of the draws. Plain draws without
 * centres.
 * @param streams  of every direction
 */
export function mixtureBlock(
  streams: readonly string[],
  { points }: Centres,
  only: DirectionFilter,
  seed: number | string,
  block: number,
): MixtureBlock {
  const { moved, plain } = drawsPerCentre(points.length);
  const densities = points.map(() => new Float64Array(BLOCK));
  const normals = streams.map((stream, d) => {
    const own = new Float64Array(only(d) ? BLOCK : 0);
    if (own.length === 0) return own;
    fillStandardNormals(seed, stream, block, own, BLOCK);
    points.forEach((point, c) => {
      const shift = point[d]!;
      const end = plain + (c + 1) * moved;
      for (let i = plain + c * moved; i < end; i++) own[i]! += shift;
    });
    points.forEach((point, c) => {
      addExponents(point[d]!, own, densities[c]!);
    });
    return own;
  });
  for (const density of densities) exponentiate(density);
  return { normals, ratios: mixedRatios(densities, BLOCK) };
}
