import { fillGaps, type GapTable, type TubHeights } from '@tubgap/core';
import { BLOCK, sampleQuantile } from '@tubgap/statistics';
import { mostFrequentMoment } from './most-frequent-moment.ts';
import { type BlockRoom, drawBlock, fillBlockAxleHeights } from './run-risk.ts';
import { type CaseSetup, clearanceOf } from './setup.ts';

/** Runs that are looked at closely: gaps, angles, moments and shares come from them, touches from all draws. */
export const INSPECTION_BLOCKS = 2;
export const LOOK_RUNS = INSPECTION_BLOCKS * BLOCK;

/** Middle values of the smallest gap of a run, before the reserve is taken off. */
export interface GapFigures {
  /** m, first and 5th percentile and median. */
  p01: number;
  p05: number;
  p50: number;
  /** rad, median hub angle of the tight point. */
  angle: number;
  /** Most frequent moment. */
  moment: string;
  /** The same among the tightest twentieth of the runs: where a touch would happen first. */
  tightestAngle: number;
  tightestMoment: string;
}

const TIGHTEST = 0.05;

function figures(gap: Float64Array, angle: Float64Array, moment: Uint8Array): GapFigures {
  const sorted = gap.toSorted();
  const limit = sampleQuantile(sorted, TIGHTEST);
  const tightest = Array.from(gap.keys()).filter((run) => gap[run]! <= limit);
  return {
    p01: sampleQuantile(sorted, 0.01),
    p05: sampleQuantile(sorted, 0.05),
    p50: sampleQuantile(sorted, 0.5),
    angle: sampleQuantile(angle.toSorted(), 0.5),
    moment: mostFrequentMoment(moment),
    tightestAngle: sampleQuantile(Float64Array.from(tightest, (run) => angle[run]!).sort(), 0.5),
    tightestMoment: mostFrequentMoment(tightest.map((run) => moment[run]!)),
  };
}

const createGapTable = (rows: number): GapTable => ({
  capacity: LOOK_RUNS,
  gap: new Float64Array(rows * LOOK_RUNS),
  angle: new Float64Array(rows * LOOK_RUNS),
  moment: new Uint8Array(rows * LOOK_RUNS),
});

/** Gap figures: [tyre or, last, all tyres][tub][height]. */
export function inspectGaps(
  setup: CaseSetup,
  seed: number,
  heights: readonly (readonly number[])[],
  room: BlockRoom,
): GapFigures[][][] {
  const places: TubHeights[] = setup.clearance.tubs.map((tub, t) => ({ tub, heights: heights[t]! }));
  const rows = heights.reduce((sum, list) => sum + list.length, 0);
  const tables = setup.tyres.map(() => createGapTable(rows));
  for (let block = 0; block < INSPECTION_BLOCKS; block++) {
    drawBlock(setup, seed, block, BLOCK, room);
    fillBlockAxleHeights(setup, room, BLOCK);
    setup.tyres.forEach((tyre, i) => {
      const table = tables[i]!;
      const part: GapTable = {
        capacity: LOOK_RUNS,
        gap: table.gap.subarray(block * BLOCK),
        angle: table.angle.subarray(block * BLOCK),
        moment: table.moment.subarray(block * BLOCK),
      };
      fillGaps(clearanceOf(setup, i), tyre.setup, room.columns[i]!, room.axleHeights, BLOCK, places, part);
    });
  }
  const all = createGapTable(rows);
  all.gap.fill(Number.POSITIVE_INFINITY);
  for (const table of tables) {
    for (let place = 0; place < all.gap.length; place++) {
      if (table.gap[place]! < all.gap[place]!) {
        all.gap[place] = table.gap[place]!;
        all.angle[place] = table.angle[place]!;
        all.moment[place] = table.moment[place]!;
      }
    }
  }
  return [...tables, all].map((table) => {
    let row = 0;
    return heights.map((list) =>
      list.map(() => {
        const from = row++ * LOOK_RUNS;
        const end = from + LOOK_RUNS;
        return figures(
          table.gap.subarray(from, end),
          table.angle.subarray(from, end),
          table.moment.subarray(from, end),
        );
      }),
    );
  });
}
