import type { Case } from '@tubgap/casefile';
import {
  blocksOf,
  NO_CENTRES,
  performStudyTask,
  runsOfBlock,
  type Study,
  type StudySample,
  type StudyTask,
} from '@tubgap/simulation';
import { BLOCK } from '@tubgap/statistics';

/** Seconds that one block of the base of a study takes here, plain and weighted. */
export interface BlockTimes {
  plain: number;
  /** 0 where nothing is weighted. */
  weighted: number;
}

/** A weighted block against a plain one, where its centres are not known yet: measured on the demo. */
const WEIGHTED_TO_PLAIN = 1.1;

function secondsOf(
  study: Study,
  drawnBy: 'plain' | 'weighted',
  centres: StudyTask['centres'] = NO_CENTRES,
): number {
  const heights = study.points[0]!.setup.clearance.tubs.map(() => []);
  const range = { drawnBy, firstBlock: 0, endBlock: 1 };
  const task = { firstPoint: 0, endPoint: 1, range, draws: BLOCK, centres, heights };
  const times = [1, 2, 3, 4].map(() => {
    const start = performance.now();
    performStudyTask(study, task);
    return (performance.now() - start) / 1000;
  });
  // The first ones are slow until the compiler has had a look.
  return Math.min(...times);
}

/**
 * Tries one block of the base.
 * @param centres  of the weighted draws; left out: not known yet
 */
export function blockTimes(study: Study, centres?: StudyTask['centres']): BlockTimes {
  const base: Study = { points: study.points.slice(0, 1), seed: study.seed };
  const plain = secondsOf(base, 'plain', centres);
  if (centres === undefined) return { plain, weighted: WEIGHTED_TO_PLAIN * plain };
  return { plain, weighted: centres.points.length === 0 ? 0 : secondsOf(base, 'weighted', centres) };
}

/** A look at the gaps of a setup against a plain block of it: measured on the demo. */
const GAPS_TO_PLAIN = 7;

/** Plain runs that take as long as the seasons of a case: each is simulated tyre by tyre, a plain run with all at once. */
export const seasonRuns = ({ simulation, tyres }: Case): number =>
  (simulation.cars * tyres.reduce((sum, { runsPerSeason }) => sum + runsPerSeason, 0)) / tyres.length;

/** Plain blocks that take as long as what is looked at beside the runs of a setup of a study that is written. */
export const blocksBeside = (source: Case, seasons: boolean): number =>
  GAPS_TO_PLAIN + (seasons ? blocksOf(seasonRuns(source)) : 0);

/**
 * Seconds that one thread would take for a study of so many setups, the base among them.
 * @param beside  plain blocks that each takes the time of beside its runs
 */
export function studySeconds(
  { plain, weighted }: BlockTimes,
  { draws, weightedBlocks }: Pick<StudySample, 'draws' | 'weightedBlocks'>,
  setups: number,
  beside = 0,
): number {
  const runs = (blocksOf(draws) * plain + weightedBlocks * weighted) * runsOfBlock(setups);
  return runs + beside * plain * setups;
}
