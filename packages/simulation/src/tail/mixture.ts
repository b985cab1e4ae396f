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
    points.forEach((point, c) => {
      const shift = point[d]!;
      if (shift === 0) return;
      const exponent = exponents[c]!;
      for (let i = 0; i < count; i++) exponent[i]! += shift * (normals[i]! - 0.5 * shift);
    });
    setDirection(direction, normals, count, room.columns);
  });
  for (let i = 0; i < count; i++) {
    let density = plain / count;
    for (const exponent of exponents) density += (moved / count) * Math.exp(exponent[i]!);
    weights[i] = 1 / density;
  }
  return all;
}
