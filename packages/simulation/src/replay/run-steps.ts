import { BLOCK, SEEN_FROM } from '@tubgap/statistics';
import type { CountedSteps } from '../case-risks.ts';
import { plainRatios } from '../importance/mixture.ts';
import type { BlockOutcome } from '../outcome.ts';
import type { Seeing } from '../runner.ts';
import { HEIGHT_STEPS } from '../tally.ts';

/** How many heights, from the lowest up, each plain run of one tyre goes under the reserve at, and touches at. */
export interface RunSteps {
  touch: Uint16Array;
  contact: Uint16Array;
}

export const emptyRunSteps = (draws: number): RunSteps => ({
  touch: new Uint16Array(draws),
  contact: new Uint16Array(draws),
});

/** Keeps what a block's runs did in the only tub of a setup. */
export function keepRunSteps(
  { count, ...did }: BlockOutcome,
  tyre: number,
  block: number,
  kept: RunSteps,
): void {
  kept.touch.set(did.steps[tyre]![0]!.subarray(0, count), block * BLOCK);
  kept.contact.set(did.contactSteps[tyre]![0]!.subarray(0, count), block * BLOCK);
}

/**
 * Of kept runs those where a mixture does not lead to: the same as counting them with it, without running them again.
 */
export function unseenRuns(
  { space, centres }: Seeing,
  seed: number,
  { touch, contact }: RunSteps,
): CountedSteps {
  const draws = touch.length;
  const found = {
    events: 0,
    tubs: [{ steps: new Float64Array(HEIGHT_STEPS + 1), contactSteps: new Float64Array(HEIGHT_STEPS + 1) }],
  };
  const [tub] = found.tubs;
  for (let first = 0; first < draws; first += BLOCK) {
    const count = Math.min(BLOCK, draws - first);
    const ratios = plainRatios(space, centres, () => true, seed, '', first / BLOCK, count);
    for (let run = 0; run < count; run++) {
      if (ratios[run]! >= SEEN_FROM) continue;
      found.events++;
      tub!.steps[touch[first + run]!]!++;
      tub!.contactSteps[contact[first + run]!]!++;
    }
  }
  return found;
}
