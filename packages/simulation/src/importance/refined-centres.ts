import { BLOCK } from '@tubgap/statistics';
import { fillSettled } from '../draws.ts';
import { type BlockRoom, evaluateBlock } from '../run-risk.ts';
import type { CaseSetup } from '../setup.ts';
import type { Centres } from './mixture.ts';
import { drawMixture } from './mixture.ts';
import type { NormalSpace } from './normal-space.ts';

/** Risks at which centres are looked at again, from common to rare: each round finds the next one's draws. */
const LEVELS = [1e-3, 1e-4, 1e-5, 1e-6];
/** Rounds at one risk: as long as some tyre and tub is served badly and a new centre is found, at most these. */
const MOST_ROUNDS = 4;
/** Weighted draws a round. */
const ROUND_BLOCKS = 2;
/** Effective touching draws of a round with which a tyre and tub are served well: 32 blocks then reach some 4 %. */
const SERVED = 40;
/** Touching draws without which a mean says nothing. */
const LEAST_TOUCHING = 8;
/** A mean within this many of its standard errors of 0 is taken as 0. */
const NOISE = 2.5;
/** Centres nearer to each other than this are one. */
const NEAR = 0.5;
const MOST_ADDED = 16;

/** Weighted draws of one round. */
interface Round {
  /** Standard normal numbers: [direction][draw]. */
  normals: Float64Array[];
  weights: Float64Array;
  /** [tyre][tub][draw], m */
  heights: Float64Array[][];
}

function drawRound(
  setup: CaseSetup,
  space: NormalSpace,
  centres: Centres,
  seed: number,
  number: number,
  room: BlockRoom,
): Round {
  const draws = ROUND_BLOCKS * BLOCK;
  const round: Round = {
    normals: space.directions.map(() => new Float64Array(draws)),
    weights: new Float64Array(draws),
    heights: setup.tyres.map(() => setup.clearance.tubs.map(() => new Float64Array(draws))),
  };
  const weights = new Float64Array(BLOCK);
  for (let block = 0; block < ROUND_BLOCKS; block++) {
    const at = block * BLOCK;
    fillSettled(setup.tyres, room.columns);
    const drawn = drawMixture(
      space,
      centres,
      () => true,
      seed,
      `centre/${number}/`,
      block,
      BLOCK,
      room,
      weights,
    );
    evaluateBlock(setup, room, BLOCK);
    round.weights.set(weights, at);
    drawn.forEach((normals, d) => {
      round.normals[d]!.set(normals, at);
    });
    round.heights.forEach((tubs, i) => {
      tubs.forEach((heights, t) => {
        const { requiredHeight, capacity } = room.tables[i]!;
        heights.set(requiredHeight.subarray(t * capacity, t * capacity + BLOCK), at);
      });
    });
  }
  return round;
}

/**
 * The tightest draws whose weights make up a risk, tightest first, and how many of equal weight they are worth. A draw
 * that no height helps is tighter than any other.
 */
function touchingAt(
  heights: Float64Array,
  weights: Float64Array,
  risk: number,
): { draws: number[]; weight: number; effective: number } {
  const order = Array.from(heights.keys()).sort((a, b) =>
    heights[a] === heights[b] ? a - b : heights[b]! - heights[a]!,
  );
  const draws: number[] = [];
  let weight = 0;
  let square = 0;
  for (const draw of order) {
    const w = weights[draw]!;
    if (draws.length >= LEAST_TOUCHING && weight + w > risk * heights.length) break;
    draws.push(draw);
    weight += w;
    square += w * w;
  }
  return { draws, weight, effective: (weight * weight) / square };
}

/** Weighted mean of some draws, a direction; what may be noise is 0. */
function meanOf(round: Round, draws: readonly number[], weight: number, effective: number): Float64Array {
  const noise = NOISE / Math.sqrt(effective);
  return Float64Array.from(round.normals, (normals) => {
    const mean = draws.reduce((sum, draw) => sum + round.weights[draw]! * normals[draw]!, 0) / weight;
    return Math.abs(mean) < noise ? 0 : mean;
  });
}

const distance = (a: Float64Array, b: Float64Array): number => Math.hypot(...a.map((x, k) => x - b[k]!));

/** Means of the touching draws of every tyre and tub that a round serves badly, where no centre is yet. */
function centresOf(round: Round, risk: number, points: readonly Float64Array[]): Float64Array[] {
  const added: Float64Array[] = [];
  for (const heights of round.heights.flat()) {
    const { draws, weight, effective } = touchingAt(heights, round.weights, risk);
    if (effective >= SERVED) continue;
    const mean = meanOf(round, draws, weight, effective);
    if ([...points, ...added].every((other) => distance(other, mean) > NEAR)) added.push(mean);
  }
  return added;
}

/**
 * Adds centres where the ones at hand serve badly: where a suspension stop or a change of cause makes a kink, the
 * search for a design point does not settle, and touches lie beside its centres. Round after round, at ever smaller
 * risks, the weighted mean of the touching draws becomes a centre: the shift with the least cross-entropy
 * (R. Rubinstein and D. Kroese, The Cross-Entropy Method, 2004; from memory).
 */
export function refinedCentres(
  setup: CaseSetup,
  space: NormalSpace,
  centres: Centres,
  seed: number,
  room: BlockRoom,
): Centres {
  let { points } = centres;
  let rounds = 0;
  for (const risk of LEVELS) {
    for (let again = 0; again < MOST_ROUNDS; again++) {
      const round = drawRound(setup, space, { ...centres, points }, seed, rounds++, room);
      const added = centresOf(round, risk, points);
      points = [...points, ...added];
      if (added.length === 0) break;
    }
  }
  return { ...centres, points: points.slice(0, centres.points.length + MOST_ADDED) };
}
