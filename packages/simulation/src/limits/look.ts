import type { Case } from '@tubgap/casefile';
import { SIXTEENTH } from '@tubgap/units';
import type { Perform } from '../simulate.ts';
import type { StudyPoint } from '../study/study-point.ts';
import {
  openStudy,
  type PointTotals,
  runStudy,
  type StudyPlan,
  type StudySample,
  type StudyTaskResult,
} from '../study/study-tasks.ts';
import type { Task } from '../tasks.ts';
import type { Margins } from './grid-search.ts';
import { roughMargin, runMargins, seasonMargins } from './margins.ts';
import { type Trial, type Trials, trialSetups } from './trials.ts';

/** The tub that stands, and the tyre that asks for the most height in it, by index; its top, m. */
export interface LimitPlace {
  tub: number;
  tyre: number;
  topHeight: number;
}

/** What some trials come to, in their order; undefined for one that leaves what the model knows. */
type Look<T> = (trials: readonly Trial[]) => Promise<(T | undefined)[]>;

/** Ways of looking at trials, all with the same draws: each tells how much height they lack. */
export interface Looks {
  /** About, m, by few draws: it leads a search, and nothing that is told rests on it. */
  rough: Look<number>;
  /** By the run risks, with all draws. */
  runs: Look<Margins>;
  /** By the season risk, with all cars. */
  seasons: Look<Margins>;
  /** About how much the case lacks as it stands. */
  roughNow: () => Promise<number>;
}

const ROUGH = { draws: 2048, weightedBlocks: 4 };
/** Risks are told from so far below the top that stands, m: the nearer, the fewer runs have to be followed. */
const BELOW = { rough: 32 * SIXTEENTH, judged: 16 * SIXTEENTH };

/** Thrown where a trial leaves what the model knows. */
class OutsideModel extends Error {}

/**
 * Opens ways of looking at trials of a case.
 * @param sample  draws of the verdict on the tub
 */
export function openLooks(
  source: Case,
  { tub, tyre, topHeight }: LimitPlace,
  { draws, weightedBlocks, centres }: StudySample,
  perform: Perform,
): Looks {
  const { accept, simulation } = source;

  const study = async <T>(
    trials: readonly Trial[],
    plan: Pick<StudyPlan, 'draws' | 'weightedBlocks' | 'seasons' | 'firstPoint'> & { below: number },
    read: (point: StudyPoint, totals: PointTotals) => T,
  ): Promise<T[]> => {
    const asked: Trials = { tub, tyre, trials };
    const opened = openStudy(trialSetups(source, asked));
    const found: T[] = [];
    const { below, ...parts } = plan;
    await runStudy(
      opened,
      { ...parts, centres, heights: [], floor: topHeight - below },
      async (tasks) => {
        const results = await perform(
          tasks.map((part): Task => ({ kind: 'trials', trials: asked, part })),
          () => {},
        );
        return results.map((result): StudyTaskResult => {
          if (result.kind !== 'trials' || result.part === undefined) throw new OutsideModel();
          return result.part;
        });
      },
      (totals, p) => found.push(read(opened.points[p]!, totals)),
    );
    return found;
  };

  const plans = {
    rough: { ...ROUGH, below: BELOW.rough },
    runs: { draws, weightedBlocks, below: BELOW.judged },
    seasons: {
      draws: 0,
      weightedBlocks: 0,
      below: BELOW.judged,
      seasons: { cars: simulation.cars, accepted: accept.seasonRisk },
    },
  };
  const read =
    <T>(margin: (point: StudyPoint, totals: PointTotals, accepted: Case['accept'], height: number) => T) =>
    (point: StudyPoint, totals: PointTotals): T =>
      margin(point, totals, accept, topHeight);
  const readers = { rough: read(roughMargin), runs: read(runMargins), seasons: read(seasonMargins) };

  const lookBy =
    <T>(
      plan: (typeof plans)[keyof typeof plans],
      reader: (point: StudyPoint, totals: PointTotals) => T,
    ): Look<T> =>
    async (trials) => {
      if (trials.length === 0) return [];
      try {
        return await study(trials, { ...plan, firstPoint: 1 }, reader);
      } catch (error) {
        if (!(error instanceof OutsideModel)) throw error;
        if (trials.length === 1) return [undefined];
        const alone: (T | undefined)[] = [];
        for (const trial of trials) alone.push(...(await lookBy(plan, reader)([trial])));
        return alone;
      }
    };

  return {
    rough: lookBy(plans.rough, readers.rough),
    runs: lookBy(plans.runs, readers.runs),
    seasons: lookBy(plans.seasons, readers.seasons),
    roughNow: async () => (await study([], plans.rough, readers.rough))[0]!,
  };
}
