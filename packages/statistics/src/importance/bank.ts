import { BLOCK } from '../stream.ts';
import { addExponents, exponentiate, mixedRatios, mixtureBlock } from './mixture.ts';
import type { NormalModel } from './model.ts';

/** A mixture as a bank's draws see it. */
export interface Mixture {
  centres: number;
  /** Sum of the densities about all of its centres over the plain one, [draw]. */
  sums: Float64Array;
}

/**
 * All draws of a search for centres, the pilot's and those of every round. Each weighs as a draw from all mixtures that
 * were drawn from, by their numbers of draws (balance heuristic, E. Veach and L. Guibas 1995; from memory): so none is
 * thrown away, and the pilot serves to the end.
 */
export interface Bank {
  draws: number;
  /** [direction][draw] */
  normals: Float64Array[];
  /** [output][draw] */
  values: Float64Array[];
  points: Float64Array[];
  /** Density about each centre over the plain one, [centre][draw]. */
  densities: Float64Array[];
  mixture: Mixture;
  /** Plain density over that of what was drawn from, [draw]. */
  weights: Float64Array;
  /** Draws that were added at once, and about how many of the centres, from the first. */
  rounds: { draws: number; centres: number }[];
}

/** An empty bank with room for so many draws. */
export function createBank(model: NormalModel, room: number): Bank {
  return {
    draws: 0,
    normals: model.directions.map(() => new Float64Array(room)),
    values: Array.from({ length: model.outputs }, () => new Float64Array(room)),
    points: [],
    densities: [],
    mixture: { centres: 0, sums: new Float64Array(room) },
    weights: new Float64Array(room),
    rounds: [],
  };
}

/** Density about a point over the plain one at the draws from the `from`-th on. */
function fillDensities(bank: Bank, point: Float64Array, from: number, densities: Float64Array): void {
  const own = densities.subarray(from, bank.draws);
  point.forEach((shift, d) => {
    addExponents(shift, bank.normals[d]!.subarray(from), own);
  });
  exponentiate(own);
  const sums = bank.mixture.sums.subarray(from);
  for (let i = 0; i < own.length; i++) sums[i]! += own[i]!;
}

/** Takes a centre in as the last one. */
export function addCentre(bank: Bank, point: Float64Array): void {
  const densities = new Float64Array(bank.weights.length);
  fillDensities(bank, point, 0, densities);
  bank.points.push(point);
  bank.densities.push(densities);
  bank.mixture.centres++;
}

/** The bank's mixture with some points more, as some of the draws see it; the sums of the others are not right. */
export function mixtureWith(bank: Bank, points: readonly Float64Array[], draws: Uint32Array): Mixture {
  const sums = bank.mixture.sums.slice(0, bank.draws);
  const exponents = new Float64Array(draws.length);
  for (const point of points) {
    exponents.fill(0);
    point.forEach((shift, d) => {
      if (shift === 0) return;
      const normals = bank.normals[d]!;
      for (let k = 0; k < draws.length; k++) exponents[k]! += shift * (normals[draws[k]!]! - 0.5 * shift);
    });
    for (let k = 0; k < draws.length; k++) sums[draws[k]!]! += Math.exp(exponents[k]!);
  }
  return { centres: bank.mixture.centres + points.length, sums };
}

/** A mixture without one of its centres, by that one's densities. */
export const without = ({ centres, sums }: Mixture, densities: Float64Array): Mixture => ({
  centres: centres - 1,
  sums: sums.map((sum, i) => Math.max(0, sum - densities[i]!)),
});

/** Weighs all draws anew. */
function weigh({ draws, rounds, densities, weights }: Bank): void {
  weights.fill(0, 0, draws);
  for (const centres of new Set(rounds.map((round) => round.centres))) {
    const alike = rounds.filter((round) => round.centres === centres);
    const share = alike.reduce((sum, round) => sum + round.draws, 0) / draws;
    const ratios = mixedRatios(densities.slice(0, centres), draws);
    for (let i = 0; i < draws; i++) weights[i]! += share * ratios[i]!;
  }
  for (let i = 0; i < draws; i++) weights[i] = 1 / weights[i]!;
}

/**
 * Adds draws about the centres at hand, from streams whose names begin with the prefix.
 * @param draws  whole blocks, or an even part of one: then as large a part of those about each centre
 */
export function addRound(
  model: NormalModel,
  bank: Bank,
  seed: number | string,
  prefix: string,
  draws: number,
): void {
  const { points } = bank;
  const streams = model.directions.map((stream) => prefix + stream);
  const count = Math.min(draws, BLOCK);
  const step = BLOCK / count;
  for (let block = 0; block * BLOCK < draws; block++) {
    const from = bank.draws;
    const whole = mixtureBlock(streams, { points }, () => true, seed, block);
    const normals = whole.normals.map((own) => own.filter((_, i) => i % step === 0));
    bank.draws += count;
    normals.forEach((own, d) => {
      bank.normals[d]!.set(own, from);
    });
    const values = bank.values.map((own) => own.subarray(from, bank.draws));
    model.evaluate(normals, count, values);
    points.forEach((point, c) => {
      fillDensities(bank, point, from, bank.densities[c]!);
    });
    bank.rounds.push({ centres: points.length, draws: count });
  }
  weigh(bank);
}
