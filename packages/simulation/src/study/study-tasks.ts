import { BLOCK } from '@tubgap/statistics';
import { ModelRangeError } from '../count.ts';
import { aboveFloors, type Floors } from '../floors.ts';
import { stepAt } from '../heights.ts';
import { type Centres, NO_CENTRES } from '../importance/mixture.ts';
import { weighBlock } from '../importance/weighted-risk.ts';
import { readBlock } from '../outcome.ts';
import { type BlockRoom, createBlockRoom, evaluateBlock } from '../run-risk.ts';
import { countBlock, type RunTallies } from '../run-tallies.ts';
import { type BlockRange, visitBlocks, weightedParts } from '../runner.ts';
import { type PairedBlock, pairBlock } from './paired-sums.ts';
import { floorsFrom, middleHeights, pilotFloors, pilotOf } from './pilot.ts';
import { type GapLook, type GapRows, pointGaps } from './study-gaps.ts';
import { type StudyPoint, type StudySetup, studyPoints } from './study-point.ts';
import {
  addSeasons,
  type CarRange,
  countedSeasons,
  emptySeasons,
  pointSeasons,
  type SeasonSums,
  weightedSeasons,
} from './study-seasons.ts';
import {
  addPlain,
  addWeightedSums,
  emptyPlain,
  emptyWeightedSums,
  type PlainSums,
  type WeightedSums,
} from './study-sums.ts';
import { createVariantRoom, differsInTubsAlone, fillVariant } from './variant.ts';

/** The draws of a study: those of the base's pick, or as many as were asked for. */
export interface StudySample {
  /** Plain draws of each setup. */
  draws: number;
  /** Blocks of weighted ones. */
  weightedBlocks: number;
  /** Of the base's whole case. */
  centres: Centres;
}

/** One part of a study that can be worked out anywhere: the same task gives the same bits. */
export interface StudyTask {
  /** Setups `firstPoint` up to but not including `endPoint`. */
  firstPoint: number;
  endPoint: number;
  range: BlockRange | CarRange | GapLook;
  /** Plain draws in all, and the centres of the weighted ones. */
  draws: number;
  centres: Centres;
  /** Heights of each of the base's tubs at which touches are compared, m. */
  heights: readonly (readonly number[])[];
  /**
   * Nobody asks for lower heights, in whichever tub, of any tyre or of each of the base's, m: risks are told from there on.
   * Left out: from where a pilot finds that they begin to matter, which tells the middle of a setup's required heights as
   * well.
   */
  floor?: number | readonly number[] | undefined;
}

/** Sums of each of a task's setups. */
export type StudyTaskResult =
  | { drawnBy: 'plain'; sums: PlainSums[] }
  | { drawnBy: 'weighted'; sums: WeightedSums[] }
  | { drawnBy: CarRange['drawnBy']; sums: SeasonSums[] }
  | { drawnBy: 'gaps'; sums: GapRows[] };

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

/** Runs the block's numbers through a setup. */
function evaluated<T>({ label }: StudyPoint, work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (error instanceof ModelRangeError) throw new ModelRangeError(`${label}: ${error.message}`);
    throw error;
  }
}

/** What runs did in the tubs of a room from `first` on. */
const pairedBlock = (
  { steps, contactSteps, legs, ...rest }: PairedBlock['outcome'],
  { tables }: BlockRoom,
  first = 0,
): PairedBlock => ({
  outcome: {
    ...rest,
    steps: steps.map((tubs) => tubs.slice(first)),
    contactSteps: contactSteps.map((tubs) => tubs.slice(first)),
    legs: legs.map((tubs) => tubs.slice(first)),
  },
  requiredHeight: (tyre, tub, run) => {
    const { requiredHeight, capacity } = tables[tyre]!;
    return requiredHeight[(first + tub) * capacity + run]!;
  },
});

/** The base with the tubs of others beside its own, and from which of its tubs on each of those stands there. */
function besideBase(base: StudyPoint, others: readonly StudyPoint[]) {
  const firstTub = new Map<StudyPoint, number>();
  const { setup } = base;
  const tubs = [...setup.clearance.tubs];
  const lowestHeights = [...setup.lowestHeights];
  for (const other of others) {
    if (other !== base && !differsInTubsAlone(other, base)) continue;
    firstTub.set(other, other === base ? 0 : tubs.length);
    if (other === base) continue;
    tubs.push(...other.setup.clearance.tubs);
    lowestHeights.push(...other.setup.lowestHeights);
  }
  return { setup: { ...setup, lowestHeights, clearance: { ...setup.clearance, tubs } }, firstTub };
}

/** Works out one task: the sums of each of its setups. @throws ModelRangeError that names the setup */
export function performStudyTask({ points, seed }: Study, task: StudyTask): StudyTaskResult {
  const { firstPoint, endPoint, range, draws, centres, heights, floor } = task;
  const base = points[0]!;
  const some = points.slice(firstPoint, endPoint);
  if (range.drawnBy === 'gaps') {
    return {
      drawnBy: 'gaps',
      sums: some.map((point) => evaluated(point, () => pointGaps(point, heights, seed))),
    };
  }
  const pilots = new Map<StudyPoint, RunTallies>();
  const pilot = (point: StudyPoint): RunTallies => {
    const made = pilots.get(point) ?? evaluated(point, () => pilotOf(point, base, seed));
    pilots.set(point, made);
    return made;
  };
  const floorsOf = (point: StudyPoint): Floors =>
    floor === undefined ? pilotFloors(pilot(point), point, heights) : floorsFrom(floor, point);
  if ('firstCar' in range) {
    const sums = some.map((point) =>
      evaluated(point, () => pointSeasons(point, base, floorsOf(point), seed, centres, range)),
    );
    return { drawnBy: range.drawnBy, sums };
  }
  const isCompared = heights.length > 0;
  const { setup, firstTub } = besideBase(base, some);
  // What nothing is changed for is read off the base, so that it has floors like the others.
  const baseFloors = floorsOf(base);
  const beside = [...firstTub.keys()].filter((point) => point !== base).map(floorsOf);
  const baseRoom = aboveFloors(
    createBlockRoom(setup),
    setup.tyres.map((_, i) => [baseFloors, ...beside].flatMap((floors) => floors[i]!)),
  );
  const rooms = some.map((point) => {
    if (firstTub.has(point)) return undefined;
    const own = createVariantRoom(point, base, baseRoom);
    return { ...own, room: aboveFloors(own.room, floorsOf(point)) };
  });
  const steps = heights.map((ofTub, t) =>
    ofTub.map((height) => stepAt(base.setup.lowestHeights[t]!, height)),
  );
  const plain =
    range.drawnBy === 'plain'
      ? some.map((point) => ({
          ...emptyPlain(point, heights),
          middles: floor === undefined ? middleHeights(pilot(point)) : [],
        }))
      : [];
  const weighted = range.drawnBy === 'weighted' ? some.map((point) => emptyWeightedSums(point, heights)) : [];
  evaluated(base, () =>
    visitBlocks(setup, base.space, { seed, draws, centres }, range, baseRoom, (outcome, drawn) => {
      const ofBase = pairedBlock(outcome, baseRoom);
      some.forEach((point, p) => {
        const own = rooms[p];
        const block =
          own === undefined
            ? pairedBlock(outcome, baseRoom, firstTub.get(point))
            : evaluated(point, () => {
                fillVariant(point, own, drawn);
                evaluateBlock(point.setup, own.room, drawn.count);
                return pairedBlock(readBlock(point.setup, own.room, drawn.count), own.room);
              });
        if (plain[p] !== undefined) countBlock(block.outcome, drawn.seen, plain[p].tallies);
        if (weighted[p] !== undefined) weighBlock(block.outcome, drawn.weights, weighted[p].tallies);
        const { paired } = (plain[p] ?? weighted[p])!;
        if (isCompared && point !== base) pairBlock(point, block, ofBase, steps, drawn, paired);
      });
    }),
  );
  return range.drawnBy === 'plain'
    ? { drawnBy: 'plain', sums: plain }
    : { drawnBy: 'weighted', sums: weighted };
}

/** Works out tasks, in any order and anywhere, and gives their sums in the order of the tasks. */
export type PerformStudy = (tasks: readonly StudyTask[]) => Promise<StudyTaskResult[]>;

/** Sums of one setup's plain and weighted draws, and of each task's share of them. */
export interface PointTotals {
  plain: PlainSums;
  weighted: WeightedSums;
  plainParts: readonly PlainSums[];
  weightedParts: readonly WeightedSums[];
  /** Left out where none were asked for; with the risk of a season that is accepted. */
  seasons?: (SeasonSums & { accepted: number }) | undefined;
  /** Left out where nobody asked. */
  gaps?: GapRows | undefined;
}

/**
 * Setups a task takes: the base is run once more with each task. What would change a pick, and a sweep of ten points, are
 * one task's.
 */
const POINTS_A_TASK = 12;
/** Times that a study of so many setups, the base among them, runs each of its blocks. */
export const runsOfBlock = (setups: number): number => setups - 1 + Math.ceil(setups / POINTS_A_TASK);
/** Parts into which the draws are split, where there are enough blocks: how a height scatters is seen from them. */
const PARTS = 16;

/** Blocks that hold a number of runs, at least one. */
export const blocksOf = (draws: number): number => Math.max(1, Math.ceil(draws / BLOCK));

/** The plain blocks of some draws, in parts. */
function plainParts(draws: number): BlockRange[] {
  if (draws === 0) return [];
  const blocks = blocksOf(draws);
  const step = Math.ceil(blocks / PARTS);
  return Array.from({ length: Math.ceil(blocks / step) }, (_, k) => ({
    drawnBy: 'plain',
    firstBlock: k * step,
    endBlock: Math.min(blocks, (k + 1) * step),
  }));
}

/** Seasons of a setup, in the order of their draws. @param p  the setup's place among those of the tasks */
function seasonsOf({ setup }: StudyPoint, p: number, results: readonly StudyTaskResult[]): SeasonSums {
  const total = emptySeasons(setup);
  for (const one of results) {
    if (one.drawnBy === 'seasons' || one.drawnBy === 'weighted seasons') addSeasons(total, one.sums[p]!);
  }
  return total;
}

/** Which draws a study makes, and where it compares. */
export interface StudyPlan extends StudySample {
  heights: StudyTask['heights'];
  /** Setups before this one are not run: their figures are known. */
  firstPoint?: number;
  /** Nor from this one on. */
  endPoint?: number;
  /** The seasons that are run as well; left out: none. */
  seasons?: { cars: number; accepted: number } | undefined;
  /** Whether gaps are looked at where setups are compared. */
  gaps?: boolean;
  floor?: StudyTask['floor'];
}

/**
 * Runs every setup of a study with the same draws, a few setups at a time, so that what is kept does not grow with
 * their number.
 * @param found  gets the sums of each setup, in their order
 * @param tell  told as the work goes on: setups done
 */
export async function runStudy(
  { points }: Study,
  plan: StudyPlan,
  perform: PerformStudy,
  found: (totals: PointTotals, point: number) => void,
  tell: (done: number) => void = () => {},
): Promise<void> {
  const { draws, weightedBlocks, centres, heights, seasons, gaps, floor } = plan;
  const ranges = [...plainParts(draws), ...weightedParts(weightedBlocks)];
  const weighed = seasons === undefined ? [] : weightedSeasons(seasons.cars, seasons.accepted);
  const cars = seasons === undefined ? [] : [...countedSeasons(seasons.cars), ...weighed];
  // Counted seasons are told apart only where weighted ones stand beside them, as in a pick.
  const carCentres = weighed.length > 0 ? centres : NO_CENTRES;
  const end = plan.endPoint ?? points.length;
  for (let firstPoint = plan.firstPoint ?? 0; firstPoint < end; firstPoint += POINTS_A_TASK) {
    const endPoint = Math.min(end, firstPoint + POINTS_A_TASK);
    const asked = { firstPoint, endPoint, draws, heights, floor };
    const results = await perform([
      ...ranges.map((range): StudyTask => ({ ...asked, range, centres })),
      ...cars.map((range): StudyTask => ({ ...asked, range, centres: carCentres })),
      // One setup each: a look takes as long as many blocks.
      ...(gaps ? points.slice(firstPoint, endPoint) : []).map(
        (_, p): StudyTask => ({
          ...asked,
          firstPoint: firstPoint + p,
          endPoint: firstPoint + p + 1,
          range: { drawnBy: 'gaps' },
          centres: NO_CENTRES,
        }),
      ),
    ]);
    const looks = results.flatMap((one) => (one.drawnBy === 'gaps' ? one.sums : []));
    points.slice(firstPoint, endPoint).forEach((point, p) => {
      const plainSums = results.flatMap((one) => (one.drawnBy === 'plain' ? [one.sums[p]!] : []));
      const weightedSums = results.flatMap((one) => (one.drawnBy === 'weighted' ? [one.sums[p]!] : []));
      const plain = emptyPlain(point, heights);
      for (const part of plainSums) addPlain(plain, part);
      const weighted = emptyWeightedSums(point, heights);
      for (const part of weightedSums) addWeightedSums(weighted, part);
      const parts = { plainParts: plainSums, weightedParts: weightedSums };
      const ofSeasons = seasons && { ...seasonsOf(point, p, results), accepted: seasons.accepted };
      found({ plain, weighted, ...parts, seasons: ofSeasons, gaps: looks[p] }, firstPoint + p);
    });
    tell(endPoint);
  }
}
