import type { Case } from '@tubgap/casefile';
import type { StudyOf } from '@tubgap/results';
import { fitClasses, weightedBlocks } from '@tubgap/simulation';
import { openBench } from '../pool.ts';
import { performBy } from '../tasks-by-bench.ts';
import { commonOf } from './record.ts';

/** Finds which tyre fits which tub at which height, all from one simulation. @throws RangeError as a pick does */
export async function runClasses(
  source: Case,
  workers: number,
  tell: (done: number) => void,
): Promise<StudyOf<'classes'>> {
  const bench = openBench(source, workers);
  const { draws, picks, chosen } = await fitClasses(source, performBy(bench), tell);
  await bench.close();
  return {
    ...commonOf(
      {
        source,
        settings: [],
        sample: { draws, weightedBlocks: weightedBlocks(source), asked: false },
        cars: source.simulation.cars,
        notes: [],
      },
      [],
    ),
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
