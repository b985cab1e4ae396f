import {
  BLOCK,
  type Centres,
  exceedance,
  fillStandardNormals,
  mixtureBlock,
  type NormalModel,
  type Probability,
  plainDensityRatios,
  SEEN_FROM,
  type StepSums,
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

/** Sums over plain and weighted draws of the first output, by how many values of a grid they exceed. */
export interface Drawn extends StepSums {
  weighted: NonNullable<StepSums['weighted']>;
  /** Sums over all weighted draws, whatever they weigh. */
  all: { weight: Float64Array; square: Float64Array };
}

/** Plain draws told apart by a mixture, and draws from the mixture. */
export function drawnAbout(
  centres: Centres,
  model: NormalModel,
  grid: readonly number[],
  seed: number,
  blocks: Blocks,
): Drawn {
  const empty = (): Float64Array => new Float64Array(grid.length + 1);
  const plain = { draws: blocks.plain * BLOCK, hits: empty(), unseen: empty() };
  const weighted = { draws: blocks.weighted * BLOCK, weight: empty(), square: empty() };
  const sums = { weight: empty(), square: empty() };
  const normals = model.directions.map(() => new Float64Array(BLOCK));
  const values = Array.from({ length: model.outputs }, () => new Float64Array(BLOCK));
  for (let block = 0; block < blocks.plain; block++) {
    model.directions.forEach((stream, d) => {
      fillStandardNormals(seed, stream, block, normals[d]!, BLOCK);
    });
    model.evaluate(normals, BLOCK, values);
    const steps = Array.from(values[0]!, (value) => stepsAbove(grid, value));
    for (const n of steps) plain.hits[n]!++;
    // Where the mixture leads is asked of those alone that exceed something, and costs as much as the draws.
    if (steps.every((n) => n === 0)) continue;
    const ratios = plainDensityRatios(model.directions, centres, all, seed, block, BLOCK);
    steps.forEach((n, i) => {
      if (ratios[i]! < SEEN_FROM) plain.unseen[n]!++;
    });
  }
  const streams = model.directions.map((stream) => `tail/${stream}`);
  for (let block = 0; block < blocks.weighted; block++) {
    const drawn = mixtureBlock(streams, centres, all, seed, block);
    model.evaluate(drawn.normals, BLOCK, values);
    for (let i = 0; i < BLOCK; i++) {
      const n = stepsAbove(grid, values[0]![i]!);
      const weight = 1 / drawn.ratios[i]!;
      sums.weight[n]! += weight;
      sums.square[n]! += weight * weight;
      if (weight > 1 / SEEN_FROM) continue;
      weighted.weight[n]! += weight;
      weighted.square[n]! += weight * weight;
    }
  }
  return { plain, weighted, all: sums };
}

/**
 * Probability of exceeding each value of a rising grid, on the way of everything that prints: plain draws told apart by
 * the mixture, weighted draws, and one rule of trust over both.
 */
export function estimate(
  centres: Centres,
  model: NormalModel,
  grid: readonly number[],
  seed: number,
  blocks: Blocks,
): Probability[] {
  const probability = exceedance(drawnAbout(centres, model, grid, seed, blocks));
  return grid.map((_, n) => probability(n));
}

/**
 * What repeated estimates of one grid say: `searches` searches for centres, from the pilot on, with `sets` sets of draws
 * for each.
 */
export function repeated(
  model: NormalModel,
  grid: readonly number[],
  { searches, sets, ...blocks }: Blocks & { searches: number; sets: number },
): Probability[][] {
  return Array.from({ length: searches }, (_, search) => {
    const centres = searchCentres(model, { seed: search });
    return Array.from({ length: sets }, (_, set) =>
      estimate(centres, model, grid, 1000 + search * sets + set, blocks),
    );
  }).flat();
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
