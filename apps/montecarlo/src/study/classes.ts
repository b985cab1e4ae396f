import type { Case } from '@tubgap/casefile';
import type { StudyOf } from '@tubgap/results';
import { fitClasses, type Perform } from '@tubgap/simulation';
import { openBench } from '../pool.ts';
import { commonOf } from './record.ts';

/** Finds which tyre fits which tub at which height, all from one simulation. @throws RangeError as a pick does */
export async function runClasses(
  source: Case,
  workers: number,
  tell: (done: number) => void,
): Promise<StudyOf<'classes'>> {
  const bench = openBench(source, workers);
  const perform: Perform = (tasks, done) => {
    let finished = 0;
    return Promise.all(
      tasks.map(async (task) => {
        const result = await bench.work(task);
        finished++;
        done(finished / tasks.length);
        return result;
      }),
    );
  };
  const { draws, picks, chosen } = await fitClasses(source, perform, tell);
  await bench.close();
  return {
    ...commonOf({ source, settings: [], draws, notes: [] }, []),
    chosen: chosen ?? null,
    kind: 'classes',
    picks: picks.map(({ verdict, reason, alone, height }) => ({
      verdict,
      reason,
      alone,
      topHeight: height?.topHeight ?? null,
      decidedBy: height?.decidedBy ?? null,
    })),
  };
}
