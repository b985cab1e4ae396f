import type { Case } from '@tubgap/casefile';
import type { Result } from '@tubgap/results';
import { existingPlace, type Limited, type Progress } from '@tubgap/simulation';
import { openBench } from '../pool.ts';
import { performBy } from '../tasks-by-bench.ts';
import { limitsBy } from './limits-by.ts';

/** What a car that is not within can be changed in, and what one that is may ask for first. */
const MENDS: readonly Limited[] = ['speed', 'pressure', 'spring', 'stop', 'travel', 'runs'];
const SPARE: readonly Limited[] = ['speed'];

/** Judges the tub that is in the car, and finds what would bring or keep it within; undefined when the case has none. */
export async function judgeExisting(
  source: Case,
  workers: number,
  tell: Progress,
): Promise<Result['existing']> {
  const place = existingPlace(source);
  if (place === undefined) return undefined;
  const bench = openBench(place.source, workers);
  try {
    const found = await limitsBy(
      place,
      performBy(bench),
      (standing) => (standing === 'within' ? SPARE : MENDS),
      tell,
    );
    const { diameter, insideWidth } = source.existing!.tub;
    return found && { diameter, insideWidth, verdict: found.judged.verdict, limits: found.limits };
  } finally {
    await bench.close();
  }
}
