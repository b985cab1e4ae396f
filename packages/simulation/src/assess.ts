import type { Case } from '@tubgap/casefile';
import { BLOCK, sampleQuantile } from '@tubgap/uncertainty';
import { type DecidingBound, decidingBounds } from './bound-tail.ts';
import { caseRisks } from './case-risks.ts';
import { type Caution, caseCautions } from './cautions.ts';
import type { HardFigures } from './hard-points/hard-figures.ts';
import { stepAt, tableHeights } from './heights.ts';
import type { CarSpread } from './insight/car-spread.ts';
import type { Change } from './insight/changes.ts';
import type { Drivers } from './insight/drivers.ts';
import type { NotchCost } from './insight/notches.ts';
import { type GapFigures, lookAtGaps } from './look.ts';
import { chosenTub, nearestTub, type Pick, pickHeights } from './pick.ts';
import type { Risk } from './risk.ts';
import { type BlockRoom, createBlockRoom, drawBlock, evaluateBlock, type RunTallies } from './run-risk.ts';
import { type CaseSetup, caseSetup } from './setup.ts';
import { lookAtShares, type ShareFigures } from './shares.ts';
import { type Perform, performHere, simulateUntilSettled } from './simulate.ts';
import type { Centres } from './tail/centres.ts';
import type { Tally } from './tally.ts';
import { type Findings, hardPointTasks, insightTasks, type PickPlace } from './tasks.ts';

/** How much larger the growth is taken to see what it would ask for. */
export const LARGER_GROWTH = 1.25;
const GROWTH_BLOCKS = 8;

/** Everything that is found out about a case. */
export interface Assessment {
  runs: RunTallies;
  seasons: Tally;
  /** Heights of the table of risk, a tub, m. */
  heights: number[][];
  /** Risk of a run at those heights: [tyre or, last, all tyres][tub][height]. */
  risks: Risk[][][];
  /** The same of real contact, reserve 0. */
  contactRisks: Risk[][][];
  /** [tyre or, last, all tyres][tub][height] */
  gaps: GapFigures[][][];
  picks: Pick[];
  /** [tyre or, last, all tyres][tub] at the pick; undefined for a tub without a height. */
  pickGaps: (GapFigures | undefined)[][];
  /** Index of the tub to build. */
  chosen: number | undefined;
  /** Where none can be built: the tub that fits the tyres and lacks least room on the car. */
  nearest: number | undefined;
  /** What is known of every hard point: [point][tyre]. */
  hardPoints: HardFigures[][];
  /** [tub][tyre]; empty for a tub without a height. */
  shares: ShareFigures[][][];
  /** Top height that a growth one quarter larger asks for on top, a tub, m: at the 99th percentile of required height. */
  largerGrowth: number[];
  bounds: DecidingBound[];
  cautions: Caution[];
  /** Of the pick, or of the nearest tub at its height; left out when there is neither. */
  drivers?: Drivers;
  changes?: Change[];
  carSpread?: CarSpread;
  notches?: NotchCost[];
}

/** Told as the work goes on: part done of a whole, 0 to 1. */
export type Progress = (stage: 'simulating' | 'looking closely', done: number) => void;

/**
 * Assesses a case: risk of a run and of a season in every tub at every height, gaps, picks and shares. The same case
 * and seed give the same answer to the last bit, however the tasks are shared out.
 * @throws ModelRangeError when a draw leaves what the model knows; RangeError when a tyre's deflection fits no sidewall
 */
export async function assessCase(
  source: Case,
  perform: Perform = performHere(source),
  progress: Progress = () => {},
): Promise<Assessment> {
  const setup = caseSetup(source);
  const { found, centres } = await simulateUntilSettled(source, setup, perform, (done) =>
    progress('simulating', done),
  );
  const assessment = assessFindings(source, setup, found, progress);
  const place = pickPlace(setup, assessment, centres);
  const tasks = [...(place === undefined ? [] : insightTasks(place)), ...hardPointTasks(setup, found, place)];
  for (const result of await perform(tasks, (share) => progress('looking closely', 0.5 + 0.5 * share))) {
    if (result.kind === 'hard points') assessment.hardPoints = result.figures;
    if (result.kind === 'drivers') assessment.drivers = result.drivers;
    if (result.kind === 'changes') assessment.changes = result.changes;
    if (result.kind === 'notches' && result.costs.length > 0) assessment.notches = result.costs;
    if (result.kind === 'car spread' && result.spread !== undefined) assessment.carSpread = result.spread;
  }
  return assessment;
}

/** The pick that insights are about: the tub to build, or else the nearest to it, with the tyre that decides it. */
function pickPlace(setup: CaseSetup, found: Assessment, centres: Centres): PickPlace | undefined {
  const tub = found.chosen ?? found.nearest;
  const height = tub === undefined ? undefined : found.picks[tub]?.height;
  if (tub === undefined || height === undefined) return undefined;
  const tyre = setup.tyres.findIndex((one) => one.name === height.limitingTyre);
  return { centres, tyre, tub, topHeight: height.topHeight };
}

/** Everything that follows from the tallies of a case. */
function assessFindings(source: Case, setup: CaseSetup, found: Findings, progress: Progress): Assessment {
  const { seed } = source.simulation;
  const { runs, seasons } = found;
  const room = createBlockRoom(setup);
  const risks = caseRisks(runs, found.tail, seasons, found.tailSeasons);
  const heights = runs.all.tubs.map((tub) => tableHeights(tub, source.heights));
  const picks = pickHeights(source, setup, risks, runs, seasons);
  progress('looking closely', 0);
  const looked = lookAtGaps(
    setup,
    seed,
    heights.map((list, t) => [...list, ...pickedHeights(picks[t]!)]),
    room,
  );
  progress('looking closely', 0.25);
  const chosen = chosenTub(source, picks);
  const risksAt = (event: 'touch' | 'contact'): Risk[][][] =>
    [...risks.tyres, risks.all].map((tubs) =>
      tubs.map((tub, t) =>
        neverRising(heights[t]!.map((height) => tub[event](stepAt(runs.all.tubs[t]!.lowest, height)))),
      ),
    );
  const assessment: Assessment = {
    runs,
    seasons,
    heights,
    risks: risksAt('touch'),
    contactRisks: risksAt('contact'),
    gaps: looked.map((tubs) => tubs.map((list, t) => list.slice(0, heights[t]!.length))),
    pickGaps: looked.map((tubs) => tubs.map((list, t) => list[heights[t]!.length])),
    picks,
    chosen,
    nearest: chosen === undefined ? nearestTub(source, picks) : undefined,
    hardPoints: [],
    shares: picks.map((pick, t) => {
      const { height } = pick;
      if (height === undefined) return [];
      return setup.tyres.map((_, i) =>
        lookAtShares(setup, seed, i, setup.clearance.tubs[t]!, height.topHeight, room),
      );
    }),
    largerGrowth: heightForLargerGrowth(source, seed, room, setup),
    bounds: decidingBounds(setup, seed, chosen ?? 0, room),
    cautions: caseCautions(setup),
  };
  progress('looking closely', 0.5);
  return assessment;
}

/**
 * Risk never rises with height; where the estimate changes from counted to weighted the noise of the two could make
 * it seem to. The estimate below is then the better one and is kept.
 */
function neverRising(risks: Risk[]): Risk[] {
  let least = 1;
  return risks.map((risk) => {
    least = Math.min(least, risk.estimate);
    return risk.estimate > least ? { ...risk, estimate: least, low: Math.min(risk.low, least) } : risk;
  });
}

const pickedHeights = (pick: Pick): number[] => (pick.height === undefined ? [] : [pick.height.topHeight]);

/** 99th percentile of the required height over all tyres, m, a tub. */
function highHeights(setup: CaseSetup, seed: number, room: BlockRoom): number[] {
  const runs = GROWTH_BLOCKS * BLOCK;
  const worst = setup.clearance.tubs.map(() => new Float64Array(runs).fill(Number.NEGATIVE_INFINITY));
  for (let block = 0; block < GROWTH_BLOCKS; block++) {
    drawBlock(setup, seed, block, BLOCK, room);
    evaluateBlock(setup, room, BLOCK);
    for (const table of room.tables) {
      worst.forEach((heights, t) => {
        for (let run = 0; run < BLOCK; run++) {
          const place = block * BLOCK + run;
          heights[place] = Math.max(heights[place]!, table.requiredHeight[t * table.capacity + run]!);
        }
      });
    }
  }
  return worst.map((heights) => sampleQuantile(heights.sort(), 0.99));
}

function heightForLargerGrowth(source: Case, seed: number, room: BlockRoom, setup: CaseSetup): number[] {
  const plain = highHeights(setup, seed, room);
  return highHeights(caseSetup(source, LARGER_GROWTH), seed, room).map((height, t) => height - plain[t]!);
}
