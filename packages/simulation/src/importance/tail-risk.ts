import { BLOCK } from '@tubgap/statistics';
import { clearWorst, takeRun, type WorstRun } from '../count.ts';
import { fillSettled } from '../draws.ts';
import { type BlockRoom, evaluateBlock } from '../run-risk.ts';
import type { CaseSetup } from '../setup.ts';
import { type Centres, drawMixture } from './mixture.ts';
import type { NormalSpace } from './normal-space.ts';
import { addWeight, addWeighted, emptyWeighted, type WeightedTally } from './weighted-tally.ts';

/** Before the names of the streams of weighted runs. */
export const TAIL_STREAMS = 'tail/';

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
  drawMixture(space, centres, () => true, seed, TAIL_STREAMS, block, BLOCK, room, weights);
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
