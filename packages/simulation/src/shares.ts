import { fillShareTable, MOMENTS, SHARE_ROWS, SHARES, type ShareTable, type Tub } from '@tubgap/core';
import { BLOCK, sampleQuantile } from '@tubgap/statistics';
import { type BlockRoom, drawBlock, fillBlockAxleHeights } from './run-risk.ts';
import { type CaseSetup, clearanceOf } from './setup.ts';

/** Runs that shares come from: a percentile of 99 is known to some 1/64 in, one standard error. */
const RUNS = BLOCK;

/** Name of the row that holds the whole closing: medians and percentiles of shares do not add up to its own. */
export const WHOLE_CLOSING = 'whole closing';

export interface ShareFigures {
  moment: string;
  share: string;
  /** m */
  p50: number;
  p99: number;
}

/** Shares of the closing of one tyre in one tub at one height, every moment that is ever run. */
export function inspectShares(
  setup: CaseSetup,
  seed: number,
  tyreIndex: number,
  tub: Tub,
  topHeight: number,
  room: BlockRoom,
): ShareFigures[] {
  const tyre = setup.tyres[tyreIndex]!;
  const rows = MOMENTS.length * SHARE_ROWS;
  const table: ShareTable = { capacity: RUNS, share: new Float64Array(rows * RUNS) };
  drawBlock(setup, seed, 0, RUNS, room);
  fillBlockAxleHeights(setup, room, RUNS);
  const columns = room.columns[tyreIndex]!;
  const clearance = clearanceOf(setup, tyreIndex);
  fillShareTable(clearance, tyre.setup, columns, room.axleHeights, RUNS, tub, topHeight, table);
  const found: ShareFigures[] = [];
  MOMENTS.forEach((moment, m) => {
    for (let s = 0; s < SHARE_ROWS; s++) {
      const from = (m * SHARE_ROWS + s) * RUNS;
      const values = table.share
        .subarray(from, from + RUNS)
        .filter((value) => !Number.isNaN(value))
        .sort();
      if (values.length === 0) continue;
      found.push({
        moment,
        share: SHARES[s] ?? WHOLE_CLOSING,
        p50: sampleQuantile(values, 0.5),
        p99: sampleQuantile(values, 0.99),
      });
    }
  });
  return found;
}
