import type { Case } from '@tubgap/casefile';
import { BLOCK } from '@tubgap/uncertainty';
import { caseRisks } from './case-risks.ts';
import { SIXTEENTH } from './inches.ts';
import { pickHeights } from './pick.ts';
import type { CaseSetup } from './setup.ts';
import type { Centres } from './tail/mixture.ts';
import {
  type Findings,
  gather,
  openingTasks,
  openWorkplace,
  performTask,
  ROUND_BLOCKS,
  roundTasks,
  type Task,
  type TaskResult,
  weightedTasks,
} from './tasks.ts';

/** Works out tasks, in any order and anywhere, and gives their results in the order of the tasks. */
export type Perform = (tasks: readonly Task[], done: (share: number) => void) => Promise<TaskResult[]>;

/** Works out every task here, one after another. */
export function performHere(source: Case): Perform {
  const place = openWorkplace(source);
  return async (tasks, done) =>
    tasks.map((task, i) => {
      const result = performTask(place, task);
      done((i + 1) / tasks.length);
      return result;
    });
}

/** Whether more draws could move no pick by more than 1/16 in: then the rest would be spent for nothing. */
function isSettled(source: Case, setup: CaseSetup, found: Findings): boolean {
  const risks = caseRisks(found.runs, found.tail, found.seasons, found.tailSeasons);
  const picks = pickHeights(source, setup, risks, found.runs, found.seasons);
  return picks.every(
    ({ height, drawsNeeded, carsNeeded }) =>
      drawsNeeded === 0 && carsNeeded === 0 && (height === undefined || height.mayFall < 1.5 * SIXTEENTH),
  );
}

/**
 * Simulates a case, round after round, until more runs could move no pick by more than 1/16 in or all that the case
 * allows are done.
 * @param tell  told as the work goes on: part done, 0 to 1
 */
export async function simulateUntilSettled(
  source: Case,
  setup: CaseSetup,
  perform: Perform,
  tell: (done: number) => void,
): Promise<{ found: Findings; centres: Centres }> {
  const rounds = Math.ceil(source.simulation.draws / (ROUND_BLOCKS * BLOCK));
  const results = await perform([...openingTasks(source), ...roundTasks(source, 0)], (share) =>
    tell(0.6 * share),
  );
  const { centres } = gather(setup, results);
  const weighted = await perform(weightedTasks(source, centres), (share) => tell(0.6 + 0.2 * share));
  let found = gather(setup, [...results, ...weighted]);
  for (let round = 1; round < rounds && !isSettled(source, setup, found); round++) {
    results.push(...(await perform(roundTasks(source, round), () => {})));
    tell(0.8 + (0.2 * round) / rounds);
    found = gather(setup, [...results, ...weighted]);
  }
  return { found, centres };
}
