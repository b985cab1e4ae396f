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

/** Seconds that one thread would take for a study of so many setups, the base among them. */
export function studySeconds(
  { plain, weighted }: BlockTimes,
  { draws, weightedBlocks }: Pick<StudySample, 'draws' | 'weightedBlocks'>,
  setups: number,
): number {
  return (blocksOf(draws) * plain + weightedBlocks * weighted) * runsOfBlock(setups);
}
