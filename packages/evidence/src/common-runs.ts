import type { CaseSetup } from '@tubgap/simulation';
import { FEWEST_RUNS, MOST_RUNS } from './car-space.ts';
import { type Believed, believe, jointLikelihood, spaceOf } from './posterior.ts';
import { thinned } from './thinned.ts';

/**
 * Error of the log-likelihood from car to car, one standard deviation, that the common runs may leave: it moves the
 * middle of what is believed by about this share of its spread, and 0.2 makes that spread 2 % too small.
 */
export const LARGEST_ERROR = 0.2;
/** Believed cars that are asked about it, and how long they are looked for. */
const ASKED_CARS = 60;
const LOOK = { draws: 30, pilot: 40 } as const;
/** Far from any seed that a shop would give, so that the other runs are others. */
const OTHER_RUNS = 715_827_883;

/**
 * How far the common runs leave the log-likelihood uncertain between one believed car and another, one standard deviation:
 * from its difference to the one with as many other runs, and at least FEWEST_RUNS. What is the same for all cars does not matter and is left out.
 */
export function commonRunError(
  setup: CaseSetup,
  { space, parts, points }: Pick<Believed, 'space' | 'parts' | 'points'>,
  seed: number,
): number {
  const costly = parts.filter((part) => part.costly);
  if (costly.length === 0) return 0;
  const own = jointLikelihood(space, costly);
  const others = Math.max(space.runCount, FEWEST_RUNS);
  const other = jointLikelihood(spaceOf(setup, parts, seed + OTHER_RUNS, others), costly);
  const off = thinned(points, ASKED_CARS).map(
    (point) => own(point, Number.NEGATIVE_INFINITY) - other(point, Number.NEGATIVE_INFINITY),
  );
  const mean = off.reduce((sum, x) => sum + x, 0) / off.length;
  const squares = off.reduce((sum, x) => sum + (x - mean) ** 2, 0);
  const variance = squares / (off.length - 1);
  // Of as many other runs half the difference is theirs; of more, all of it is taken to be of these.
  return Math.sqrt(others === space.runCount ? variance / 2 : variance);
}

/**
 * Common runs that some parts of the evidence need: twice as many as long as their number still moves what is believed,
 * judged by a short look.
 * @returns how many, and whether they are enough
 */
export function enoughCommonRuns(
  setup: CaseSetup,
  parts: Believed['parts'],
  seed: number,
): { runCount: number; enough: boolean } {
  if (!parts.some(({ costly }) => costly)) return { runCount: FEWEST_RUNS, enough: true };
  for (let runCount = FEWEST_RUNS; ; runCount *= 2) {
    const enough =
      commonRunError(setup, believe(setup, parts, { seed, ...LOOK, runCount }), seed) <= LARGEST_ERROR;
    if (enough || runCount >= MOST_RUNS) return { runCount, enough };
  }
}
