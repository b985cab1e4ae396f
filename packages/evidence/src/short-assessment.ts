import type { Case } from '@tubgap/casefile';
import {
  type CaseRisks,
  type CaseSetup,
  chosenTub,
  createBlockRoom,
  findingRisks,
  gather,
  lookAtShares,
  openingTasks,
  openWorkplace,
  type Pick,
  performTask,
  pickHeights,
  roundTasks,
  type ShareFigures,
  weightedTasks,
} from '@tubgap/simulation';

/** Risks and picks of a case from few draws: enough to compare it with another, not to build by. */
export interface ShortAssessment {
  setup: CaseSetup;
  risks: CaseRisks;
  picks: Pick[];
  chosen: number | undefined;
}

/** Weighted blocks: fewer than a pick to build by has. */
const TAIL_BLOCKS = 16;

/** Simulates one round of runs with the weighted draws that go with it, and the seasons. */
export function assessShort(source: Case): ShortAssessment {
  const place = openWorkplace(source);
  const { setup } = place;
  const opening = openingTasks(source).map((task) => performTask(place, task));
  const { centres } = gather(setup, opening);
  const rest = [...weightedTasks(source, centres), ...roundTasks(source, centres, 0, 1)]
    .filter((task) => task.kind !== 'tail' || task.block < TAIL_BLOCKS)
    .map((task) => performTask(place, task));
  const found = gather(setup, [...opening, ...rest]);
  const risks = findingRisks(found);
  const picks = pickHeights(source, setup, risks, found.runs);
  return { setup, risks, picks, chosen: chosenTub(source, picks) };
}

/** Where the gap goes with one tyre in one tub at a height. */
export const sharesAt = (
  source: Case,
  setup: CaseSetup,
  tyre: number,
  tub: number,
  topHeight: number,
): ShareFigures[] =>
  lookAtShares(
    setup,
    source.simulation.seed,
    tyre,
    setup.clearance.tubs[tub]!,
    topHeight,
    createBlockRoom(setup),
  );
