import { BLOCK } from '@tubgap/uncertainty';
import { clearWorst, takeRun, type WorstRun } from '../count.ts';
import { fillSettled } from '../draws.ts';
import { type BlockRoom, evaluateBlock } from '../run-risk.ts';
import type { CaseSetup } from '../setup.ts';
import type { Centres } from './centres.ts';
import { fillNormals, type NormalSpace, setDirection } from './normal-space.ts';
import { addWeight, addWeighted, emptyWeighted, type WeightedTally } from './weighted-tally.ts';

/** Share of the draws that stay plain: it bounds every weight at ten (defensive mixture, Hesterberg 1995). */
const PLAIN_SHARE = 0.1;

/** Weighted tallies: one a tyre, and of all tyres together. */
export interface TailTallies {
  tyres: WeightedTally[];
  all: WeightedTally;
}

export function emptyTailTallies(setup: CaseSetup): TailTallies {
  const tubs = setup.clearance.tubs.length;
  return { tyres: setup.tyres.map(() => emptyWeighted(tubs)), all: emptyWeighted(tubs) };
}

/** Adds one block's weighted tallies; blocks in the order of their numbers. */
export function addTail(total: TailTallies, more: TailTallies): void {
  total.tyres.forEach((tally, i) => {
    addWeighted(tally, more.tyres[i]!);
  });
  addWeighted(total.all, more.all);
}

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

/** Adds one event with its weight to a tally. */
export function weighEvent(worst: WorstRun, weight: number, tally: WeightedTally): void {
  tally.events++;
  for (let t = 0; t < tally.tubs.length; t++) {
    addWeight(tally.tubs[t]!.steps, worst.steps[t]!, weight);
    addWeight(tally.tubs[t]!.contact, worst.contactSteps[t]!, weight);
  }
}

/**
 * One block of weighted runs: where touches are rare, draws are moved to where they happen and each counts with its
 * weight. One block answers every tyre, tub and height at once.
 */
export function tailBlock(
  setup: CaseSetup,
  space: NormalSpace,
  centres: Centres,
  seed: number,
  block: number,
  room: BlockRoom,
): TailTallies {
  const tallies = emptyTailTallies(setup);
  const weights = new Float64Array(BLOCK);
  fillSettled(setup.tyres, room.columns);
  drawMixture(space, centres, () => true, seed, 'tail/', block, BLOCK, room, weights);
  evaluateBlock(setup, room, BLOCK);
  for (let run = 0; run < BLOCK; run++) {
    clearWorst(room.allWorst);
    setup.tyres.forEach((tyre, i) => {
      clearWorst(room.worst);
      takeRun(setup, tyre.name, room.tables[i]!, run, room.worst);
      weighEvent(room.worst, weights[run]!, tallies.tyres[i]!);
      takeRun(setup, tyre.name, room.tables[i]!, run, room.allWorst);
    });
    weighEvent(room.allWorst, weights[run]!, tallies.all);
  }
  return tallies;
}
