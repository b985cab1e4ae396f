import type { Perform } from '@tubgap/simulation';
import type { Bench } from './pool.ts';

/** Has a bench work out tasks, and tells the share that is done. */
export const performBy =
  ({ work }: Bench): Perform =>
  (tasks, done) => {
    let finished = 0;
    return Promise.all(
      tasks.map(async (task) => {
        const result = await work(task);
        finished++;
        done(finished / tasks.length);
        return result;
      }),
    );
  };
