import type { Case } from '@tubgap/casefile';
import { chosenTub, type Pick, pickHeights } from '../pick.ts';
import { caseSetup } from '../setup.ts';
import { type SideFault, sideFaults } from '../side-rooms.ts';
import { type Perform, simulateUntilSettled } from '../simulate.ts';
import { findingRisks } from '../tasks.ts';

/** Which tyre fits which tub at which height, and all of them together. */
export interface ClassFit {
  /** Simulated runs. */
  draws: number;
  /** A tub: the height of each tyre alone, and that of the whole car, season and all. */
  picks: Pick[];
  /** What keeps a tyre out of a tub at the sides, none when it goes in: [tub][tyre]. */
  sides: SideFault[][][];
  /** Index of the tub to build. */
  chosen: number | undefined;
}

/** What keeps a tyre out of a tub at the sides, none when it goes in: [tub][tyre]. */
export const tubSides = (source: Case): SideFault[][][] =>
  source.tubs.map((tub) => source.tyres.map((tyre) => sideFaults({ ...source, tyres: [tyre] }, tub)));

/**
 * Finds which tyres fit which tubs at which height from one simulation of the case, the same that its pick comes from.
 * @throws ModelRangeError when a draw leaves what the model knows
 */
export async function fitClasses(
  source: Case,
  perform: Perform,
  tell: (done: number) => void = () => {},
): Promise<ClassFit> {
  const setup = caseSetup(source);
  const { found } = await simulateUntilSettled(source, setup, perform, tell);
  const picks = pickHeights(source, setup, findingRisks(found), found.runs);
  return {
    draws: found.runs.all.events,
    picks,
    sides: tubSides(source),
    chosen: chosenTub(source, picks),
  };
}
