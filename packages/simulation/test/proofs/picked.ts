import type { Case } from '@tubgap/casefile';
import { SIXTEENTH } from '@tubgap/units';
import type { CaseRisks } from '../../src/case-risks.ts';
import { pickHeights } from '../../src/pick.ts';
import { caseSetup } from '../../src/setup.ts';
import { performHere, simulateUntilSettled } from '../../src/simulate.ts';
import { findingRisks } from '../../src/tasks.ts';

/** What a pick says of a case's one tub. */
export interface Picked {
  risks: CaseRisks;
  /** Step, of the tally's heights, of the height that is picked; undefined where none is. */
  step: number | undefined;
  /** Plain runs that it was made of. */
  runs: number;
}

/** Picks as every verb does, with as many runs as are planned for the case. */
export async function picked(source: Case): Promise<Picked> {
  const setup = caseSetup(source);
  const { found } = await simulateUntilSettled(source, setup, performHere(source), () => {});
  const risks = findingRisks(found);
  const { height } = pickHeights(source, setup, risks, found.runs)[0]!;
  return {
    risks,
    step: height && Math.round((height.topHeight - setup.lowestHeights[0]!) / SIXTEENTH),
    runs: found.runs.all.events,
  };
}

const asked = process.env.TUBGAP_PROOF_SEEDS;

/** Seeds of a proof: a few, or as many as TUBGAP_PROOF_SEEDS says. */
export const proofSeeds = (few: number): number[] =>
  Array.from({ length: asked === undefined ? few : Number(asked) }, (_, k) => k + 1);

/** Misses that a promise of 95 % allows; of a few seeds one. */
export const missesOf = (seeds: number): number => Math.max(1, 0.05 * seeds);
