import type { Case } from '@tubgap/casefile';
import type { Result } from '@tubgap/results';
import { existingPlace, type Limited, limitsBy, type Perform, type Progress } from '@tubgap/simulation';
import { type Bench, openBench } from '../pool.ts';

/** What a car that is not within can be changed in, and what one that is may ask for first. */
const MENDS: readonly Limited[] = ['speed', 'pressure', 'spring', 'stop', 'travel', 'runs'];
const SPARE: readonly Limited[] = ['speed'];

/**
 * Judges the tub that is in the car, and finds what would bring or keep it within; undefined when the case has none.
 * @param pick  where the pick of the case is worked out: there too where the tub stands among the pick's own
 * @param keeping  works tasks out at a bench and keeps them; a case that is not the pick's has a name for its own
 */
export async function judgeExisting(
  source: Case,
  pick: Bench,
  workers: number,
  keeping: (bench: Bench, of?: string) => Perform,
  tell: Progress,
): Promise<Result['existing']> {
  const place = existingPlace(source);
  if (place === undefined) return undefined;
  const own = place.source === source ? undefined : openBench(place.source, workers);
  try {
    const found = await limitsBy(
      place,
      own === undefined ? keeping(pick) : keeping(own, 'existing'),
      (standing) => (standing === 'within' ? SPARE : MENDS),
      tell,
    );
    const { diameter, insideWidth } = source.existing!.tub;
    return found && { diameter, insideWidth, verdict: found.judged.verdict, limits: found.limits };
  } finally {
    await own?.close();
  }
}
