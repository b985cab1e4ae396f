import { availableParallelism } from 'node:os';
import { setImmediate } from 'node:timers/promises';
import type { Case } from '@tubgap/casefile';
import { openWorkplace, performTask, type Task, type TaskResult } from '@tubgap/simulation';
import { Piscina } from 'piscina';

/** Works out one task somewhere. */
export interface Bench {
  work: (task: Task) => Promise<TaskResult>;
  close: () => Promise<void>;
}

/** Below this many simulated runs a pool takes longer to start than it saves. */
const WORTH_A_POOL = 20_000;

/** Worker threads in use when nothing else is said. */
export const defaultWorkers = (): number => availableParallelism();

/** A bench for a case: worker threads, or this thread when one is asked for or the work is small. */
export function openBench(source: Case, workers: number): Bench {
  const { draws, cars } = source.simulation;
  const runs =
    draws * source.tyres.length + cars * source.tyres.reduce((sum, tyre) => sum + tyre.runsPerSeason, 0);
  if (workers <= 1 || runs < WORTH_A_POOL) {
    const place = openWorkplace(source);
    let before: Promise<unknown> = Promise.resolve();
    const work = (task: Task): Promise<TaskResult> => {
      // One after another, and between them a stop by hand is heard.
      const result = before.then(() => setImmediate()).then(() => performTask(place, task));
      before = result.catch(() => undefined);
      return result;
    };
    return { work, close: async () => {} };
  }
  const pool = new Piscina({
    filename: new URL('./worker.js', import.meta.url).href,
    minThreads: workers,
    maxThreads: workers,
    workerData: { source },
  });
  return { work: (task) => pool.run(task), close: () => pool.destroy() };
}
