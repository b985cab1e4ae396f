import type { Case } from '@tubgap/casefile';
import {
  type CaseRisks,
  type CaseSetup,
  chosenTub,
  createBlockRoom,
  findingRisks,
  floorTasks,
  gather,
  inspectShares,
  openingTasks,
  openWorkplace,
  type Pick,
  performTask,
  pickHeights,
  type RunTallies,
  roundTasks,
  type ShareFigures,
  type Task,
  type TaskResult,
  tubVerdict,
  type Verdict,
  weightedTasks,
  withCentre,
} from '@tubgap/simulation';
import type { AsBuilt } from './readings.ts';

/** Risks and picks of a case from few draws: enough to compare it with another, not to build by. */
export interface ShortAssessment {
  setup: CaseSetup;
  risks: CaseRisks;
  runs: RunTallies;
  picks: Pick[];
  chosen: number | undefined;
}

/** Centres closer than this, m, are one. */
const SAME_PLACE = 1e-5;

/** Weighted blocks: fewer than a pick to build by has. */
const TAIL_BLOCKS = 16;

/**
 * Simulates one round of runs with the weighted draws that go with it, and the seasons.
 * @param asked  heights that will be asked about, in whichever tub, m
 */
export function assessShort(source: Case, asked: readonly number[] = []): ShortAssessment {
  const place = openWorkplace(source);
  const { setup } = place;
  const perform = (tasks: readonly Task[]): TaskResult[] => tasks.map((task) => performTask(place, task));
  const { floors } = gather(setup, perform(floorTasks(asked)));
  const opening = perform(openingTasks(source, floors));
  const { centres } = gather(setup, opening);
  const from = { centres, floors };
  const rest = [...weightedTasks(source, from), ...roundTasks(source, from, 0, 1)]
    .filter((task) => task.kind !== 'tail' || task.endBlock <= TAIL_BLOCKS)
    .map((task) => performTask(place, task));
  const found = gather(setup, [...opening, ...rest]);
  const risks = findingRisks(found);
  const picks = pickHeights(source, setup, risks, found.runs);
  return { setup, risks, runs: found.runs, picks, chosen: chosenTub(source, picks) };
}

/**
 * The verdict on a tub that stands, by a short assessment of its case: with its centre where it stands, for which the
 * runs are simulated anew unless it is the case's own.
 * @param short  of the case itself, the tub's height among those asked about
 * @throws RangeError when the case has no such tub
 */
export function standingVerdict(
  source: Case,
  { tub, topHeight, centreForward }: AsBuilt,
  short: ShortAssessment,
): Verdict {
  const t = source.tubs.findIndex(({ name }) => name === tub);
  if (t < 0) throw new RangeError(`the case has no tub ${tub}`);
  const isElsewhere =
    centreForward !== undefined && Math.abs(centreForward - source.tubs[t]!.centreForward) > SAME_PLACE;
  const own = isElsewhere ? withCentre(source, t, centreForward) : source;
  const { setup, risks, runs } = isElsewhere ? assessShort(own, [topHeight]) : short;
  return tubVerdict(own, setup, risks, runs, t, topHeight);
}

/** Where the gap goes with one tyre in one tub at a height. */
export const sharesAt = (
  source: Case,
  setup: CaseSetup,
  tyre: number,
  tub: number,
  topHeight: number,
): ShareFigures[] =>
  inspectShares(
    setup,
    source.simulation.seed,
    tyre,
    setup.clearance.tubs[tub]!,
    topHeight,
    createBlockRoom(setup),
  );
