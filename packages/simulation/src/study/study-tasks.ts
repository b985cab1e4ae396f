import { BLOCK, drawsToSupport } from '@tubgap/statistics';
import { ModelRangeError } from '../count.ts';
import { stepAt } from '../heights.ts';
import { touchCentres } from '../importance/centres.ts';
import type { Centres } from '../importance/mixture.ts';
import { createBlockRoom, evaluateBlock } from '../run-risk.ts';
import { createStudyRoom, type DrawnBy, drawStudyBlock, fillStudyColumns } from './study-draws.ts';
import { type StudyPoint, type StudySetup, studyPoints } from './study-point.ts';
import {
  addPointSums,
  type BlockOutcome,
  blockOutcome,
  emptyPointSums,
  type PointSums,
  sumBlock,
} from './study-sums.ts';

/** One part of a study that can be worked out anywhere: the same task gives the same bits. */
export interface StudyTask {
  /** Setups `firstPoint` up to but not including `endPoint`; blocks the same. */
  firstPoint: number;
  endPoint: number;
  firstBlock: number;
  endBlock: number;
  drawnBy: DrawnBy;
  /** Of the base: weighted draws come from them, plain ones are told apart by them. */
  centres: Centres;
  /** Heights of each of the base's tubs at which touches are compared, m. */
  heights: readonly (readonly number[])[];
}

/** A study made ready, once per worker. */
export interface Study {
  points: readonly StudyPoint[];
  seed: number;
}

/**
 * Makes a study ready; the first of the setups is the base, and its seed is everyone's.
 * @param lowest  heights that each of the base's tubs is counted from, m, where these setups are some of a larger study
 */
export function openStudy(setups: readonly StudySetup[], lowest?: readonly number[]): Study {
  return { points: studyPoints(setups, lowest), seed: setups[0]!.source.simulation.seed };
}

/** Where touches of the base come from: the centres of a study's weighted draws. */
export function studyCentres({ points, seed }: Study): Centres {
  const { setup, space } = points[0]!;
  return touchCentres(setup, space, seed, createBlockRoom(setup));
}

/** Runs the block's numbers through a setup. */
function evaluated<T>({ label }: StudyPoint, work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (error instanceof ModelRangeError) throw new ModelRangeError(`${label}: ${error.message}`);
    throw error;
  }
}

/** Works out one task: the sums of each of its setups. @throws ModelRangeError that names the setup */
export function performStudyTask({ points, seed }: Study, task: StudyTask): PointSums[] {
  const base = points[0]!;
  const baseRoom = createStudyRoom(base);
  const steps = task.heights.map((heights, t) =>
    heights.map((height) => stepAt(base.setup.lowestHeights[t]!, height)),
  );
  const prefix = task.drawnBy === 'plain' ? '' : 'tail/';
  const some = points.slice(task.firstPoint, task.endPoint);
  const rooms = some.map((point) => (point === base ? baseRoom : createStudyRoom(point)));
  const sums = some.map((point) => emptyPointSums(point, task.heights));
  for (let block = task.firstBlock; block < task.endBlock; block++) {
    const draws = drawStudyBlock(base, task.drawnBy, task.centres, { seed, prefix, block }, baseRoom);
    const run = (point: StudyPoint, room: typeof baseRoom): BlockOutcome =>
      evaluated(point, () => {
        evaluateBlock(point.setup, room, BLOCK);
        return blockOutcome(point, room);
      });
    const beside = { outcome: run(base, baseRoom), room: baseRoom, steps };
    some.forEach((point, p) => {
      const room = rooms[p]!;
      if (point !== base) fillStudyColumns(point, draws, room);
      const outcome = point === base ? beside.outcome : run(point, room);
      sumBlock(point, outcome, room, beside, draws, sums[p]!);
    });
  }
  return sums;
}

/** Works out tasks, in any order and anywhere, and gives their sums in the order of the tasks. */
export type PerformStudy = (tasks: readonly StudyTask[]) => Promise<PointSums[][]>;

/** Sums of one setup's plain and weighted draws, and of each task's share of them. */
export interface PointTotals {
  plain: PointSums;
  weighted: PointSums;
  plainParts: readonly PointSums[];
  weightedParts: readonly PointSums[];
}

/** Setups a task takes: the base is run once more with each task. */
const POINTS_A_TASK = 8;
/** Times that a study of so many setups, the base among them, runs each of its blocks. */
export const runsOfBlock = (setups: number): number => setups - 1 + Math.ceil(setups / POINTS_A_TASK);
/** Parts into which the draws are split, where there are enough blocks: how a height scatters is seen from them. */
const PARTS = 16;

/** Weighted blocks are as many as plain ones, but no more than these: they tell any risk that is in question. */
const MOST_WEIGHTED = 32;
export const weightedBlocks = (blocks: number): number => Math.min(blocks, MOST_WEIGHTED);

/** Plain runs of a setup that support an accepted risk with some to spare, however rare it is. */
export const studyDraws = (accepted: number): number =>
  BLOCK * Math.max(16, Math.ceil((2 * drawsToSupport(accepted)) / BLOCK));

/** Blocks that hold a number of runs, at least one. */
export const blocksOf = (draws: number): number => Math.max(1, Math.ceil(draws / BLOCK));

/** Which draws a study makes, and where it compares. */
export interface StudyPlan {
  /** Blocks of plain draws, and as many of weighted ones up to a number that is enough for any. */
  blocks: number;
  centres: Centres;
  heights: StudyTask['heights'];
  /** Setups before this one are not run: their figures are known. */
  firstPoint?: number;
}

/**
 * Runs every setup of a study with the same draws, a few setups at a time, so that what is kept does not grow with
 * their number.
 * @param found  gets the sums of each setup, in their order
 * @param tell  told as the work goes on: setups done
 */
export async function runStudy(
  { points }: Study,
  { blocks, centres, heights, firstPoint: start = 0 }: StudyPlan,
  perform: PerformStudy,
  found: (totals: PointTotals, point: number) => void,
  tell: (done: number) => void = () => {},
): Promise<void> {
  for (let firstPoint = start; firstPoint < points.length; firstPoint += POINTS_A_TASK) {
    const endPoint = Math.min(points.length, firstPoint + POINTS_A_TASK);
    const part = (drawnBy: DrawnBy, count: number): StudyTask[] => {
      const step = Math.ceil(count / PARTS);
      return Array.from({ length: Math.ceil(count / step) }, (_, k) => ({
        firstPoint,
        endPoint,
        firstBlock: k * step,
        endBlock: Math.min(count, (k + 1) * step),
        drawnBy,
        centres,
        heights,
      }));
    };
    const plainTasks = part('plain', blocks);
    const weightedTasks = centres.points.length === 0 ? [] : part('weighted', weightedBlocks(blocks));
    const results = await perform([...plainTasks, ...weightedTasks]);
    points.slice(firstPoint, endPoint).forEach((point, p) => {
      const parts = results.map((sums) => sums[p]!);
      const plainParts = parts.slice(0, plainTasks.length);
      const weightedParts = parts.slice(plainTasks.length);
      const sum = (of: readonly PointSums[]): PointSums => {
        const total = emptyPointSums(point, heights);
        for (const part of of) addPointSums(total, part);
        return total;
      };
      const totals = { plain: sum(plainParts), weighted: sum(weightedParts), plainParts, weightedParts };
      found(totals, firstPoint + p);
    });
    tell(endPoint);
  }
}
