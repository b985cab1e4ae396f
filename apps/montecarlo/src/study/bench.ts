import { setImmediate } from 'node:timers/promises';
import {
  openStudy,
  type PerformStudy,
  performStudyTask,
  type Study,
  type StudySample,
  type StudySetup,
} from '@tubgap/simulation';
import { BLOCK } from '@tubgap/statistics';
import { Piscina } from 'piscina';

/** A study made ready, and somewhere to work out its tasks. */
export interface StudyBench {
  study: Study;
  perform: PerformStudy;
  close: () => Promise<void>;
}

/** Below this many simulated runs a pool takes longer to start than it saves. */
const WORTH_A_POOL = 40_000;

/**
 * A bench for setups that are compared: worker threads, or this thread when one is asked for or the work is small.
 * @param sample  simulated runs a setup
 * @param lowest  heights that tubs are counted from, m, where these setups are some of a larger study
 * @throws RangeError that names the setup, when one cannot be made ready
 */
export function openStudyBench(
  setups: readonly StudySetup[],
  workers: number,
  { draws, weightedBlocks }: Pick<StudySample, 'draws' | 'weightedBlocks'>,
  lowest?: readonly number[],
): StudyBench {
  const study = openStudy(setups, lowest);
  const runs = draws + weightedBlocks * BLOCK;
  if (workers <= 1 || runs * setups.length < WORTH_A_POOL) {
    return {
      study,
      perform: async (tasks) => {
        const results = [];
        for (const task of tasks) {
          // Between two of them a stop by hand is heard.
          await setImmediate();
          results.push(performStudyTask(study, task));
        }
        return results;
      },
      close: async () => {},
    };
  }
  const pool = new Piscina({
    filename: new URL('./worker.js', import.meta.url).href,
    minThreads: workers,
    maxThreads: workers,
    workerData: { setups, lowest },
  });
  return {
    study,
    perform: (tasks) => Promise.all(tasks.map((task) => pool.run(task))),
    close: () => pool.destroy(),
  };
}
