import {
  BLOCK,
  type Centres,
  exceedance,
  fillNormals,
  mixtureBlock,
  type NormalModel,
  type Probability,
  plainDensityRatios,
  SEEN_FROM,
  searchCentres,
} from '../../src/index.ts';
import type { Problem } from './problem.ts';

/** Blocks of plain and of weighted draws. */
export interface Blocks {
  plain: number;
  weighted: number;
}

const all = (): boolean => true;

/** How many values of a rising grid are exceeded. */
function stepsAbove(grid: readonly number[], value: number): number {
  let n = 0;
  while (n < grid.length && value > grid[n]!) n++;
  return n;
}

/** Probabilities of exceeding the values of a grid, and the centres that they were found with. */
export interface Found {
  at: readonly Probability[];
  centres: Centres;
}

/**
 * Probability of exceeding each value of a rising grid, on the way of everything that prints: pilot, search for centres,
 * plain draws told apart by the mixture, weighted draws, and one rule of trust over both.
 */
export function estimate(
  model: NormalModel,
  grid: readonly number[],
  seed: number,
  { plain, weighted }: Blocks,
  centres = searchCentres(model, { seed }),
): Found {
  const empty = (): Float64Array => new Float64Array(grid.length + 1);
  const counted = { draws: plain * BLOCK, hits: empty(), unseen: empty() };
  const weighed = { draws: weighted * BLOCK, weight: empty(), square: empty() };
  const normals = model.directions.map(() => new Float64Array(BLOCK));
  const values = Array.from({ length: model.outputs }, () => new Float64Array(BLOCK));
  for (let block = 0; block < plain; block++) {
    model.directions.forEach((stream, d) => {
      fillNormals(seed, stream, block, normals[d]!, BLOCK);
    });
    model.evaluate(normals, BLOCK, values);
    const ratios = plainDensityRatios(model.directions, centres, all, seed, block, BLOCK);
    for (let i = 0; i < BLOCK; i++) {
      const n = stepsAbove(grid, values[0]![i]!);
      counted.hits[n]!++;
      if (ratios[i]! < SEEN_FROM) counted.unseen[n]!++;
    }
  }
  const streams = model.directions.map((stream) => `tail/${stream}`);
  for (let block = 0; block < weighted; block++) {
    const drawn = mixtureBlock(streams, centres, all, seed, block);
    model.evaluate(drawn.normals, BLOCK, values);
    for (let i = 0; i < BLOCK; i++) {
      if (drawn.ratios[i]! < SEEN_FROM) continue;
      const n = stepsAbove(grid, values[0]![i]!);
      weighed.weight[n]! += 1 / drawn.ratios[i]!;
      weighed.square[n]! += 1 / drawn.ratios[i]! ** 2;
    }
  }
  const probability = exceedance({ plain: counted, weighted: weighed });
  return { at: grid.map((_, n) => probability(n)), centres };
}

/** A model of one number, worked out point by point. */
export function pointModel(dimension: number, value: (u: Float64Array) => number): NormalModel {
  const u = new Float64Array(dimension);
  return {
    directions: Array.from({ length: dimension }, (_, d) => `${d}`),
    outputs: 1,
    evaluate: (normals, count, values) => {
      for (let i = 0; i < count; i++) {
        for (let d = 0; d < dimension; d++) u[d] = normals[d]![i]!;
        values[0]![i] = value(u);
      }
    },
  };
}

/** A problem's model: how far below 0 its limit state is. */
export const problemModel = ({ dimension, limitState }: Problem): NormalModel =>
  pointModel(dimension, (u) => -limitState(u));
