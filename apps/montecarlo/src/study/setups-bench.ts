import { setImmediate } from 'node:timers/promises';
import { openStudy, type PerformSetups, performStudyTask } from '@tubgap/simulation';
import { Piscina } from 'piscina';
import type { SetupsTask } from './setups-worker.ts';

/** Somewhere to work out studies of other setups one after another, as a search asks for them. */
export interface SetupsBench {
  perform: PerformSetups;
  close: () => Promise<void>;
}

/** A bench of worker threads that stay for all studies, or this thread when one is asked for. */
export function openSetupsBench(workers: number): SetupsBench {
  if (workers <= 1) {
    return {
      perform: (setups) => {
        const study = openStudy(setups);
        return async (tasks) => {
          const results = [];
          for (const task of tasks) {
            // Between two of them a stop by hand is heard.
            await setImmediate();
            results.push(performStudyTask(study, task));
          }
          return results;
        };
      },
      close: async () => {},
    };
  }
  const pool = new Piscina({
    filename: new URL('./setups-worker.js', import.meta.url).href,
    minThreads: workers,
    maxThreads: workers,
  });
  let studies = 0;
  return {
    perform: (setups) => {
      const number = studies++;
      return (tasks) =>
        Promise.all(tasks.map((task) => pool.run({ number, setups, task } satisfies SetupsTask)));
    },
    close: () => pool.destroy(),
  };
}
