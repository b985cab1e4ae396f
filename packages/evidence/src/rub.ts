import type { Case } from '@tubgap/casefile';
import type { CaseSetup } from '@tubgap/simulation';
import { sampleQuantile } from '@tubgap/statistics';
import { INCH } from '@tubgap/units';
import { openMarkGaps } from './parts/mark-gaps.ts';
import { MARK_BLUR } from './parts/marks.ts';
import { priorPoints } from './posterior.ts';
import type { MarkReading } from './readings.ts';
import { wholeCarSpace } from './whole-car.ts';

/** What a rub that the case calls impossible asks for by itself; m. */
export interface Rub {
  mark: MarkReading;
  /** Gap of the case's ordinary run at that place, the median over its cars and runs. */
  ordinaryGap: number;
  /** By how much the tyre came nearer than that, the blur of a mark added. */
  nearer: number;
  /** Gap at that place gained by raising the top a length, over that length. */
  gainOfRaise: number;
  /** By how much the top must go up by the mark alone, never below 0; undefined where no height mends it. */
  raiseBy: number | undefined;
}

/** Cars of the priors whose runs are looked at. */
const CARS = 300;
/** Where raising gains less than this share, the tub's side is too near and no height mends it. */
const LEAST_GAIN = 0.25;

/**
 * What a rub asks for where the case cannot explain it, by the mark alone. The mark is taken for that of an ordinary run,
 * on the safe side: which of the runs made it, and how much further the tyre would have gone, nobody knows. Whatever is
 * missing in the case then takes as much from every run, so the top must stand higher than the case alone asks for by what
 * gives that much gap back at the mark's place.
 * @param mark  touched
 * @param asked  lowest top height of that tub within what is accepted, by the case, m; undefined where there is none
 */
export function rubRaise(
  source: Case,
  setup: CaseSetup,
  mark: MarkReading,
  asked: number | undefined,
  seed: number,
): Rub {
  const space = wholeCarSpace(setup, seed);
  const lengths = [mark.built.topHeight, mark.built.topHeight + INCH];
  const [gaps, raised] = lengths.map((topHeight) => {
    const open = openMarkGaps(source, setup, mark.tyre, [mark], { ...mark.built, topHeight });
    const all: number[] = [];
    for (const point of priorPoints(space, seed, CARS)) {
      const state = space.at(point);
      open.fill(state);
      all.push(...open.of(mark).subarray(0, state.runCount));
    }
    return Float64Array.from(all).sort();
  }) as [Float64Array, Float64Array];
  const ordinaryGap = sampleQuantile(gaps, 0.5);
  const nearer = Math.max(0, ordinaryGap - mark.thickness) + MARK_BLUR;
  const gainOfRaise = (sampleQuantile(raised, 0.5) - ordinaryGap) / INCH;
  const raiseBy =
    asked === undefined || gainOfRaise < LEAST_GAIN
      ? undefined
      : Math.max(0, asked - mark.built.topHeight + nearer / gainOfRaise);
  return { mark, ordinaryGap, nearer, gainOfRaise, raiseBy };
}
