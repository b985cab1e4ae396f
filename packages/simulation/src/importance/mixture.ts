import { BLOCK } from '@tubgap/statistics';
import type { BlockRoom } from '../run-risk.ts';
import { fillNormals, type NormalSpace, setDirection } from './normal-space.ts';

/** Centres about which touches lie, each a point of the case's normal space. */
export interface Centres {
  points: Float64Array[];
  /** Causes found: tyre, moment and side of the tightest runs. */
  causes: number;
}

/** Share of the draws that stay plain: it bounds every weight at ten (defensive mixture, Hesterberg 1995). */
const PLAIN_SHARE = 0.1;

/** Draws of a block that are moved to each centre; the rest stay plain. The same in every block. */
export function drawsPerCentre(centres: number, count: number): { moved: number; plain: number } {
  const moved = centres === 0 ? 0 : Math.floor(((1 - PLAIN_SHARE) * count) / centres);
  return { moved, plain: count - moved * centres };
}

export const NO_CENTRES: Centres = { points: [], causes: 0 };

/** Adds one direction's part of every centre's exponent: the logarithm of its law over the plain one. */
function addExponents(
  points: readonly Float64Array[],
  d: number,
  normals: Float64Array,
  count: number,
  exponents: readonly Float64Array[],
): void {
  points.forEach((point, c) => {
    const shift = point[d]!;
    if (shift === 0) return;
    const exponent = exponents[c]!;
    for (let i = 0; i < count; i++) exponent[i]! += shift * (normals[i]! - 0.5 * shift);
  });
}

/** Density of the mixture over the plain one, at least PLAIN_SHARE. */
function densityRatio(exponents: readonly Float64Array[], i: number, count: number): number {
  const { moved, plain } = drawsPerCentre(exponents.length, count);
  let density = plain / count;
  for (const exponent of exponents) density += (moved / count) * Math.exp(exponent[i]!);
  return density;
}

/**
 * Density of the mixture over the plain one at the plain draws of one block, which are left as they are: whether the
 * mixture leads to where they lie. 1 without centres.
 * @param only  directions that count, as for drawMixture
 */
export function plainRatios(
  space: NormalSpace,
  { points }: Centres,
  only: (direction: number) => boolean,
  seed: number,
  prefix: string,
  block: number,
  count: number,
): Float64Array {
  const ratios = new Float64Array(count).fill(1);
  if (points.length === 0) return ratios;
  const exponents = points.map(() => new Float64Array(count));
  const normals = new Float64Array(count);
  space.directions.forEach((direction, d) => {
    if (!only(d) || points.every((point) => point[d] === 0)) return;
    fillNormals(direction, seed, prefix, block, count, normals);
    addExponents(points, d, normals, count, exponents);
  });
  return ratios.map((_, i) => densityRatio(exponents, i, BLOCK));
}

/**
 * Draws one block from the mixture: the plain law, moved to each centre for its share of the draws. Fills the block's
 * columns and the weights, plain density over the mixture's.
 * @param only  directions to draw; the others' columns are left as they are and do not count in the weight
 * @returns the standard normal numbers, one array a direction; empty for those not drawn
 */
export function drawMixture(
  space: NormalSpace,
  centres: Centres,
  only: (direction: number) => boolean,
  seed: number,
  prefix: string,
  block: number,
  count: number,
  room: Pick<BlockRoom, 'columns'>,
  weights: Float64Array,
): Float64Array[] {
  const { points } = centres;
  const { moved, plain } = drawsPerCentre(points.length, count);
  const exponents = points.map(() => new Float64Array(count));
  const all: Float64Array[] = [];
  space.directions.forEach((direction, d) => {
    const normals = new Float64Array(only(d) ? count : 0);
    all.push(normals);
    if (!only(d)) return;
    fillNormals(direction, seed, prefix, block, count, normals);
    points.forEach((point, c) => {
      const shift = point[d]!;
      if (shift === 0) return;
      const end = plain + (c + 1) * moved;
      for (let i = plain + c * moved; i < end; i++) normals[i]! += shift;
    });
    addExponents(points, d, normals, count, exponents);
    setDirection(direction, normals, count, room.columns);
  });
  for (let i = 0; i < count; i++) weights[i] = 1 / densityRatio(exponents, i, count);
  return all;
}
