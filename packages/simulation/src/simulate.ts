import type { Case } from '@tubgap/casefile';
import type { Centres } from './importance/mixture.ts';
import { pickHeights } from './pick.ts';
import { mostRounds, plannedRounds } from './planned-rounds.ts';
import type { CaseSetup } from './setup.ts';
import {
  type Findings,
  findingRisks,
  gather,
  openingTasks,
  openWorkplace,
  performTask,
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

/**
 * Simulates a case with as many plain runs as are planned for it, at least one round; with all that the case allows
 * where those leave it open whether a tub fits.
 * @param tell  told as the work goes on: part done, 0 to 1
 */
export async function simulateUntilSettled(
  source: Case,
  setup: CaseSetup,
  perform: Perform,
  tell: (done: number) => void,
): Promise<{ found: Findings; centres: Centres }> {
  const results = await perform(openingTasks(source), (share) => tell(0.3 * share));
  const { centres } = gather(setup, results);
  let told = 0.3;
  const more = async (tasks: readonly Task[], until: number): Promise<Findings> => {
    const from = told;
    results.push(...(await perform(tasks, (share) => tell(from + (until - from) * share))));
    told = until;
    return gather(setup, results);
  };
  const first = await more([...weightedTasks(source, centres), ...roundTasks(source, centres, 0, 1)], 0.7);
  const planned = plannedRounds(source, setup, first);
  let found = await more(roundTasks(source, centres, 1, planned), 0.9);
  const isOpen = pickHeights(source, setup, findingRisks(found), found.runs).some(
    ({ verdict }) => verdict === 'not known',
  );
  if (isOpen) found = await more(roundTasks(source, centres, planned, mostRounds(source)), 1);
  return { found, centres };
}
