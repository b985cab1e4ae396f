import { type RunTable, WALLS } from '@tubgap/core';
import type { CaseSetup } from './setup.ts';
import { HEIGHT_STEPS, stepsBelow, type Tally } from './tally.ts';

/** Mark of a run that a leg decides. */
const LEG = WALLS.indexOf('leg');

/** Says that a number left the model's range: no risk is counted from it. */
export class ModelRangeError extends RangeError {}

/** The worst of one or more runs: for each tub how many of its heights are touched, and what else is. */
export interface WorstRun {
  steps: Float64Array;
  contactSteps: Float64Array;
  /** 1 where a leg or its end is touched at the lowest height, a tub. */
  legs: Uint8Array;
  /** 1 where it is touched, a hard point. */
  hardPoints: Uint8Array;
}

export function createWorstRun(setup: CaseSetup): WorstRun {
  const tubs = setup.clearance.tubs.length;
  return {
    steps: new Float64Array(tubs),
    contactSteps: new Float64Array(tubs),
    legs: new Uint8Array(tubs),
    hardPoints: new Uint8Array(setup.clearance.hardPoints.length),
  };
}

export function clearWorst(worst: WorstRun): void {
  worst.steps.fill(0);
  worst.contactSteps.fill(0);
  worst.legs.fill(0);
  worst.hardPoints.fill(0);
}

/**
 * Takes one evaluated run into `worst`. A hard point that is touched is touched at every height.
 * @throws ModelRangeError when the run came out of the model as no number
 */
export function takeRun(setup: CaseSetup, tyre: number, table: RunTable, run: number, worst: WorstRun): void {
  const { hardPoints, tubs } = setup.clearance;
  const { name, run: its } = setup.tyres[tyre]!;
  const { reserve } = its;
  let hard = false;
  let hit = false;
  for (let h = 0; h < hardPoints.length; h++) {
    const gap = table.hardGap[h * table.capacity + run]!;
    if (gap < reserve) {
      worst.hardPoints[h] = 1;
      hard = true;
      if (gap < 0) hit = true;
    }
  }
  for (let t = 0; t < tubs.length; t++) {
    const place = t * table.capacity + run;
    const required = table.requiredHeight[place]!;
    if (Number.isNaN(required)) {
      throw new ModelRangeError(
        `a run with the tyre ${name} came out as no number: one of its inputs is drawn outside what the model ` +
          'knows. Narrow the widest laws of the case.',
      );
    }
    const lowest = setup.lowestHeights[t]!;
    const needed = stepsBelow(required, lowest);
    if (needed > 0 && table.tightWall[place] === LEG) worst.legs[t] = 1;
    const steps = hard ? HEIGHT_STEPS : needed;
    if (steps > worst.steps[t]!) worst.steps[t] = steps;
    const contact = hit ? HEIGHT_STEPS : stepsBelow(table.contactHeight[place]!, lowest);
    if (contact > worst.contactSteps[t]!) worst.contactSteps[t] = contact;
  }
}

/** Counts one event, whose worst is in `worst`, in a tally. */
export function countEvent(worst: WorstRun, tally: Tally): void {
  tally.events++;
  for (let t = 0; t < tally.tubs.length; t++) {
    const tub = tally.tubs[t]!;
    tub.steps[worst.steps[t]!]!++;
    tub.contactSteps[worst.contactSteps[t]!]!++;
    tub.legTouches += worst.legs[t]!;
  }
  for (let h = 0; h < worst.hardPoints.length; h++) tally.hardTouches[h]! += worst.hardPoints[h]!;
}
