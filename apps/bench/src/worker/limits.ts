import { limitsBy, performHere } from '@tubgap/simulation';
import type { LimitsFound, LimitsQuestion } from './messages.ts';

/** Runs and cars at most: as many as the answer of a call has, which a phone works out while one waits. */
const MOST_RUNS = 65_536;
const MOST_CARS = 512;
/** Share of the work that the verdict takes, for a bar alone. */
const JUDGING = 0.4;

/**
 * How far each number may go for a tub at its height, by the machine of `tubgap limits`: of the same case, seed, runs and cars
 * it has the same figures.
 * @param tell  hears what share of the work is done
 * @throws Error where a draw leaves what the model knows
 */
export async function limitsFor(
  { source, tub, topHeight, codes }: LimitsQuestion,
  tell: (share: number) => void,
): Promise<LimitsFound> {
  const { draws, cars, seed } = source.simulation;
  const simulation = { draws: Math.min(MOST_RUNS, draws), cars: Math.min(MOST_CARS, cars), seed };
  const asked = { ...source, simulation };
  const found = await limitsBy(
    { source: asked, tub, topHeight },
    performHere(asked),
    () => codes,
    (stage, done) => tell(stage === 'simulating' ? JUDGING * done : JUDGING + (1 - JUDGING) * done),
  );
  // Only where no tub is named is there none.
  const { judged, limits } = found!;
  return { standing: judged.verdict.standing, draws: judged.draws, limits };
}
