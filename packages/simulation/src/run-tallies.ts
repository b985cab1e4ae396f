import type { BlockOutcome } from './outcome.ts';
import type { CaseSetup } from './setup.ts';
import { addTally, emptyTally, type Tally } from './tally.ts';

/** Tallies of runs: one a tyre, and `all`: draws in which at least one of the car's tyres would touch. */
export interface RunTallies {
  tyres: Tally[];
  all: Tally;
  /** Of the same runs those that lie where the mixture of the weighted draws does not lead to; all of them without one. */
  unseen: { tyres: Tally[]; all: Tally };
}

/** Tallies with nothing counted. */
export function emptyRunTallies(setup: CaseSetup): RunTallies {
  const empty = (): Tally => emptyTally(setup.lowestHeights, setup.clearance.hardPoints.length);
  const both = () => ({ tyres: setup.tyres.map(empty), all: empty() });
  return { ...both(), unseen: both() };
}

/** Adds the counts of `more` to `total`. */
export function addRunTallies(total: RunTallies, more: RunTallies): void {
  const add = (to: RunTallies['unseen'], from: RunTallies['unseen']): void => {
    to.tyres.forEach((tally, i) => {
      addTally(tally, from.tyres[i]!);
    });
    addTally(to.all, from.all);
  };
  add(total, more);
  add(total.unseen, more.unseen);
}

/**
 * Counts the runs of a block, for each tyre and for all tyres of the car together.
 * @param seen  1 for each run where the mixture of the weighted draws leads to
 */
export function countBlock(outcome: BlockOutcome, seen: Uint8Array, tallies: RunTallies): void {
  const { count } = outcome;
  const unseen = seen.map((one) => 1 - one);
  const all = seen.map(() => 1);
  const counted = (own: Tally, row: number, isCounted: Uint8Array): void => {
    for (let run = 0; run < count; run++) own.events += isCounted[run]!;
    own.tubs.forEach((tub, t) => {
      const steps = outcome.steps[row]![t]!;
      const contactSteps = outcome.contactSteps[row]![t]!;
      const legs = outcome.legs[row]![t]!;
      for (let run = 0; run < count; run++) {
        tub.steps[steps[run]!]! += isCounted[run]!;
        tub.contactSteps[contactSteps[run]!]! += isCounted[run]!;
        tub.legTouches += legs[run]! * isCounted[run]!;
      }
    });
    outcome.hardPoints[row]!.forEach((touched, h) => {
      for (let run = 0; run < count; run++) own.hardTouches[h]! += touched[run]! * isCounted[run]!;
    });
  };
  [...tallies.tyres, tallies.all].forEach((own, row) => {
    counted(own, row, all);
    counted([...tallies.unseen.tyres, tallies.unseen.all][row]!, row, unseen);
  });
}
