import { type AngleTable, fillAngles, MOMENTS, type RunTable, WALLS } from '@tubgap/core';
import { BLOCK } from '@tubgap/statistics';
import type { DrawColumns } from '../draws.ts';
import { type CaseSetup, clearanceOf } from '../setup.ts';

/** A tub at a height whose gaps at some hub angles are told of every run; m, rad. */
export interface AskedGaps {
  tub: number;
  topHeight: number;
  angles: readonly number[];
}

/** What the model says of the runs of a block with one tyre; SI, one element a run. */
export interface RowAnswers {
  /** [tub] */
  tubs: {
    requiredHeight: Float64Array;
    contactHeight: Float64Array;
    tightAngle: Float64Array;
    moment: string[];
    wall: string[];
  }[];
  /** [hard point]: smallest gap; Infinity: it is not below the gap to be kept. */
  hardGaps: Float64Array[];
  /** [angle asked for]: standing on this tyre, and the least over the run. */
  gaps: { atRest: Float64Array; inRun: Float64Array }[];
}

/** Opens the gaps at some angles, for block after block of one size. */
function openGaps(setup: CaseSetup, { tub, topHeight, angles }: AskedGaps) {
  const table = (): AngleTable => ({
    capacity: BLOCK,
    angles: Float64Array.from(angles),
    values: new Float64Array(angles.length * BLOCK),
  });
  const radii = table();
  const gaps = { tub: setup.clearance.tubs[tub]!, topHeight, atRest: table(), inRun: table() };
  return (tyre: number, columns: Pick<DrawColumns, 'car' | 'tyre'>, axles: Float64Array, count: number) => {
    fillAngles(clearanceOf(setup, tyre), setup.tyres[tyre]!.setup, columns, axles, count, radii, gaps);
    const of = ({ values }: AngleTable, k: number) => values.slice(k * BLOCK, k * BLOCK + count);
    return angles.map((_, k) => ({ atRest: of(gaps.atRest, k), inRun: of(gaps.inRun, k) }));
  };
}

/**
 * Opens what is told of runs that were evaluated.
 * @param asked  gaps to tell beside the heights
 * @returns reads an evaluated block of one tyre
 */
export function openAnswers(
  setup: CaseSetup,
  asked: AskedGaps | undefined,
): (
  tyre: number,
  columns: Pick<DrawColumns, 'car' | 'tyre'>,
  axleHeights: Float64Array,
  table: RunTable,
  count: number,
) => RowAnswers {
  const gapsOf = asked === undefined ? undefined : openGaps(setup, asked);
  return (tyre, columns, axleHeights, table, count) => {
    const { capacity } = table;
    const part = <Values extends Float64Array | Uint8Array>(values: Values, of: number) =>
      values.slice(of * capacity, of * capacity + count) as Values;
    return {
      tubs: setup.clearance.tubs.map((_, t) => ({
        requiredHeight: part(table.requiredHeight, t),
        contactHeight: part(table.contactHeight, t),
        tightAngle: part(table.tightAngle, t),
        moment: Array.from(part(table.tightMoment, t), (at) => MOMENTS[at]!),
        wall: Array.from(part(table.tightWall, t), (at) => WALLS[at]!),
      })),
      hardGaps: setup.clearance.hardPoints.map((_, h) => part(table.hardGap, h)),
      gaps: gapsOf === undefined ? [] : gapsOf(tyre, columns, axleHeights, count),
    };
  };
}
