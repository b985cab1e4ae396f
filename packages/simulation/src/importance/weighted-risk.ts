import type { WorstRun } from '../count.ts';
import type { BlockOutcome } from '../outcome.ts';
import type { CaseSetup } from '../setup.ts';
import { addWeight, addWeighted, emptyWeighted, type WeightedTally } from './weighted-tally.ts';

/** Weighted tallies: one a tyre, and of all tyres together. */
export interface WeightedTallies {
  tyres: WeightedTally[];
  all: WeightedTally;
}

export function emptyWeightedTallies(setup: CaseSetup): WeightedTallies {
  const { tubs, hardPoints } = setup.clearance;
  const empty = (): WeightedTally => emptyWeighted(tubs.length, hardPoints.length);
  return { tyres: setup.tyres.map(empty), all: empty() };
}

/** Adds the weighted tallies of more runs, in the order of their draws. */
export function addWeightedTallies(total: WeightedTallies, more: WeightedTallies): void {
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
    if (worst.legs[t] === 1) tally.tubs[t]!.legs += weight;
  }
  worst.hardPoints.forEach((touched, h) => {
    if (touched === 1) tally.hardPoints[h]! += weight;
  });
}

/** Adds the runs of a block with their weights, for each tyre and for all together. */
export function weighBlock(outcome: BlockOutcome, weights: Float64Array, tallies: WeightedTallies): void {
  const { count } = outcome;
  [...tallies.tyres, tallies.all].forEach((own, row) => {
    own.events += count;
    own.tubs.forEach((tub, t) => {
      const steps = outcome.steps[row]![t]!;
      const contactSteps = outcome.contactSteps[row]![t]!;
      const legs = outcome.legs[row]![t]!;
      for (let run = 0; run < count; run++) {
        addWeight(tub.steps, steps[run]!, weights[run]!);
        addWeight(tub.contact, contactSteps[run]!, weights[run]!);
        if (legs[run] === 1) tub.legs += weights[run]!;
      }
    });
    outcome.hardPoints[row]!.forEach((touched, h) => {
      for (let run = 0; run < count; run++) if (touched[run] === 1) own.hardPoints[h]! += weights[run]!;
    });
  });
}
