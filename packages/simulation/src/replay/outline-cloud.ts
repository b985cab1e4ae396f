import { type AngleTable, fillAngles } from '@tubgap/core';
import { BLOCK, sampleQuantile } from '@tubgap/statistics';
import { type BlockRoom, drawBlock } from '../run-risk.ts';
import { type CaseSetup, clearanceOf } from '../setup.ts';

/** Hub angles of the outlines, rad: every 5° from −120° to 120°. */
export const OUTLINE_ANGLES: readonly number[] = Array.from(
  { length: 49 },
  (_, k) => ((k - 24) * Math.PI) / 36,
);

/** A tyre's outlines over some runs: the largest radius at each hub angle over the moments of a run, m. */
export interface OutlineCloud {
  /** Outlines of single runs. */
  runs: number[][];
  /** [quantile][angle] */
  quantiles: number[][];
}

/** Outlines of one tyre of a setup in the first runs of a seed. */
export function outlineCloud(
  setup: CaseSetup,
  tyre: number,
  seed: number,
  blocks: number,
  shown: number,
  quantiles: readonly number[],
  room: BlockRoom,
): OutlineCloud {
  const count = blocks * BLOCK;
  const angles = Float64Array.from(OUTLINE_ANGLES);
  const table: AngleTable = { capacity: count, angles, values: new Float64Array(angles.length * count) };
  const { setup: own } = setup.tyres[tyre]!;
  for (let block = 0; block < blocks; block++) {
    drawBlock(setup, seed, block, BLOCK, room);
    const part = { ...table, values: table.values.subarray(block * BLOCK) };
    fillAngles(clearanceOf(setup, tyre), own, room.columns[tyre]!, room.axleHeights, BLOCK, part, undefined);
  }
  const row = (k: number): Float64Array => table.values.subarray(k * count, (k + 1) * count);
  const runs = Array.from({ length: shown }, (_, run) => OUTLINE_ANGLES.map((_, k) => row(k)[run]!));
  const sorted = OUTLINE_ANGLES.map((_, k) => row(k).toSorted());
  return { runs, quantiles: quantiles.map((q) => sorted.map((values) => sampleQuantile(values, q))) };
}
