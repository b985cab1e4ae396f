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

/** Worker threads in use when nothing else is said. */
export const defaultWorkers = (): number => availableParallelism();

/**
 * A bench for a case: worker threads, or this thread when one is asked for. However few the plain runs are, the weighted
 * ones and the closer look take a pool's start many times over.
 */
export function openBench(source: Case, workers: number): Bench {
  if (workers <= 1) {
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
