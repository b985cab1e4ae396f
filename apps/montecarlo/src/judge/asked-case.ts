import type { Setting } from '@tubgap/casefile';
import { BAD_INPUT, DONE, NOT_WITHIN, printRemarks, stop, TOO_FEW } from '@tubgap/casefile/command-line';
import type { Standing } from '@tubgap/simulation';
import { MOST_DRAWS, pickTime, tooManyDraws } from '../draw-count.ts';
import { type ReadCase, readCase } from '../options.ts';
import { defaultWorkers } from '../pool.ts';
import { type StandingTub, standingTub, type TubWords } from './standing-tub.ts';

/** How a verb that asks about the tub that stands ends. */
export const EXIT_CODES: Readonly<Record<Standing, number>> = {
  within: DONE,
  'not within': NOT_WITHIN,
  'not known': TOO_FEW,
};

/** What every such verb may be given. */
export interface StandingOptions extends TubWords {
  draws?: number | undefined;
  cars?: number | undefined;
  seed?: number | undefined;
  set?: Setting[] | undefined;
  workers?: number | undefined;
  json?: true | undefined;
}

/**
 * Reads the case and finds the tub that stands in it; tells how long it will take.
 * @throws Stop, where something in the input has to be mended
 */
export function openStanding(
  file: string,
  options: StandingOptions,
): { standing: StandingTub; workers: number; standIns: ReadCase['standIns'] } {
  const { source, standIns } = readCase(file, options.set ?? []);
  const { simulation } = source;
  if (options.draws !== undefined) simulation.draws = options.draws;
  if (options.cars !== undefined) simulation.cars = options.cars;
  if (options.seed !== undefined) simulation.seed = options.seed;
  const asked = standingTub(source, options);
  if (!asked.ok) stop([...asked.lines, 'Nothing was run.'].join('\n'), BAD_INPUT);
  const workers = options.workers ?? defaultWorkers();
  const tooMany = tooManyDraws(source, simulation.draws, MOST_DRAWS, workers);
  if (tooMany !== undefined) stop(`${tooMany}\nNothing was run.`, BAD_INPUT);
  const time = pickTime(source, workers);
  if (time !== undefined) printRemarks([time]);
  return { standing: asked.standing, workers, standIns };
}
