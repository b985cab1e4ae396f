import type { Case } from '@tubgap/casefile';
import { BLOCK, sampleQuantile } from '@tubgap/uncertainty';
import { type DecidingBound, decidingBounds } from './bound-tail.ts';
import { type Caution, caseCautions } from './cautions.ts';
import { tableHeights } from './heights.ts';
import { type GapFigures, lookAtGaps } from './look.ts';
import { chosenTub, type Pick, pickHeights } from './pick.ts';
import {
  type BlockRoom,
  createBlockRoom,
  drawBlock,
  emptyRunTallies,
  evaluateBlock,
  type RunTallies,
  tallyRuns,
} from './run-risk.ts';
import { tallySeasons } from './season-risk.ts';
import { type CaseSetup, caseSetup } from './setup.ts';
import { lookAtShares, type ShareFigures } from './shares.ts';
import { emptyTally, type Tally } from './tally.ts';

/** How much larger the growth is taken to see what it would ask for. */
export const LARGER_GROWTH = 1.25;
const GROWTH_BLOCKS = 8;

/** Everything that is found out about a case. */
export interface Assessment {
  runs: RunTallies;
  seasons: Tally;
  /** Heights of the table of risk, a tub, m. */
  heights: number[][];
  /** [tyre or, last, all tyres][tub][height] */
  gaps: GapFigures[][][];
  picks: Pick[];
  /** [tyre or, last, all tyres][tub] at the pick; undefined for a tub without a height. */
  pickGaps: (GapFigures | undefined)[][];
  /** Index of the tub to build. */
  chosen: number | undefined;
  /** [tub][tyre]; empty for a tub without a height. */
  shares: ShareFigures[][][];
  /** Top height that a growth one quarter larger asks for on top, a tub, m: at the 99th percentile of required height. */
  largerGrowth: number[];
  bounds: DecidingBound[];
  cautions: Caution[];
}

/** Told as the work goes on: part done of a whole, 0 to 1. */
export type Progress = (stage: 'runs' | 'seasons' | 'gaps', done: number) => void;

/**
 * Assesses a case: risk of a run and of a season in every tub at every height, gaps, picks and shares. The same case
 * and seed give the same answer to the last bit.
 * @throws ModelRangeError when a draw leaves what the model knows; RangeError when a tyre's deflection fits no sidewall
 */
export function assessCase(source: Case, progress: Progress = () => {}): Assessment {
  const setup = caseSetup(source);
  const room = createBlockRoom(setup);
  const { draws, cars, seed } = source.simulation;

  const runs = emptyRunTallies(setup);
  const blocks = Math.ceil(draws / BLOCK);
  for (let block = 0; block < blocks; block++) {
    tallyRuns(setup, seed, draws, block, block + 1, room, runs);
    progress('runs', (block + 1) / blocks);
  }

  const seasons = emptyTally(setup.lowestHeights, setup.clearance.hardPoints.length);
  for (let car = 0; car < cars; car += BLOCK) {
    const end = Math.min(cars, car + BLOCK);
    tallySeasons(setup, seed, car, end, room, seasons);
    progress('seasons', end / cars);
  }

  const heights = runs.all.tubs.map((tub) => tableHeights(tub, source.heights));
  const picks = pickHeights(source, setup, runs, seasons);
  const looked = lookAtGaps(
    setup,
    seed,
    heights.map((list, t) => [...list, ...pickedHeights(picks[t]!)]),
    room,
  );
  progress('gaps', 1);
  return {
    runs,
    seasons,
    heights,
    gaps: looked.map((tubs) => tubs.map((list, t) => list.slice(0, heights[t]!.length))),
    pickGaps: looked.map((tubs) => tubs.map((list, t) => list[heights[t]!.length])),
    picks,
    chosen: chosenTub(source, picks),
    shares: picks.map((pick, t) => {
      const { height } = pick;
      if (height === undefined) return [];
      return setup.tyres.map((_, i) =>
        lookAtShares(setup, seed, i, setup.clearance.tubs[t]!, height.topHeight, room),
      );
    }),
    largerGrowth: heightForLargerGrowth(source, seed, room, setup),
    bounds: decidingBounds(setup, seed, chosenTub(source, picks) ?? 0, room),
    cautions: caseCautions(setup),
  };
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
