import { type Centres, mixtureBlock, plainDensityRatios } from '@tubgap/statistics';
import type { BlockRoom } from '../run-risk.ts';
import { type NormalSpace, setDirection } from './normal-space.ts';

export { type Centres, NO_CENTRES } from '@tubgap/statistics';

const streamsOf = (space: NormalSpace, prefix: string): string[] =>
  space.directions.map(({ stream }) => prefix + stream);

/**
 * Density of the mixture over the plain one at the plain draws of one block, which are left as they are: whether the
 * mixture leads to where they lie. 1 without centres.
 * @param only  directions that count, as for drawMixture
 */
export const plainRatios = (
  space: NormalSpace,
  centres: Centres,
  only: (direction: number) => boolean,
  seed: number,
  prefix: string,
  block: number,
  count: number,
): Float64Array => plainDensityRatios(streamsOf(space, prefix), centres, only, seed, block, count);

/**
 * Draws one block from the mixture. Fills the block's columns and the weights, plain density over the mixture's.
 * @param only  directions to draw; the others' columns are left as they are and do not count in the weight
 * @param count  draws to fill in, at most a block
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
  const { normals, ratios } = mixtureBlock(streamsOf(space, prefix), centres, only, seed, block);
  space.directions.forEach((direction, d) => {
    if (only(d)) setDirection(direction, normals[d]!, count, room.columns);
  });
  for (let i = 0; i < count; i++) weights[i] = 1 / ratios[i]!;
  return normals;
}
