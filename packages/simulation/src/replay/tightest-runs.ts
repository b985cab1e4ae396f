import { MOMENTS, type Moment } from '@tubgap/core';
import { clearWorst, takeRun } from '../count.ts';
import type { BlockRoom } from '../run-risk.ts';
import type { CaseSetup } from '../setup.ts';

/** One simulated run: all that its states follow from. SI. */
export interface DrawnRun {
  car: Float64Array;
  tyre: Float64Array;
  axleHeight: number;
  /** That decides its height. */
  moment: Moment;
  requiredHeight: number;
}

/**
 * Of the runs of one tyre in the only tub of a setup the tightest of each step: element n of those that touch at the
 * lowest n heights, as a tally counts them; undefined where no run does.
 */
export type TightestRuns = (DrawnRun | undefined)[];

/**
 * Takes in the runs of an evaluated block, plain or weighted, by the steps that they are counted with.
 * @throws ModelRangeError when a run came out of the model as no number
 */
export function keepTightest(
  setup: CaseSetup,
  tyre: number,
  room: BlockRoom,
  count: number,
  kept: TightestRuns,
): void {
  const table = room.tables[tyre]!;
  const { car, tyre: own } = room.columns[tyre]!;
  const { worst } = room;
  for (let run = 0; run < count; run++) {
    clearWorst(worst);
    takeRun(setup, tyre, table, run, worst);
    const requiredHeight = table.requiredHeight[run]!;
    const before = kept[worst.steps[0]!];
    if (before !== undefined && before.requiredHeight >= requiredHeight) continue;
    const drawn = (columns: readonly Float64Array[]): Float64Array =>
      Float64Array.from(columns, (column) => column[run]!);
    kept[worst.steps[0]!] = {
      car: drawn(car),
      tyre: drawn(own),
      axleHeight: room.axleHeights[run]!,
      moment: MOMENTS[table.tightMoment[run]!]!,
      requiredHeight,
    };
  }
}

/** The tightest run of all that are kept; undefined when none is. */
export function tightestOf(kept: TightestRuns): DrawnRun | undefined {
  let most: DrawnRun | undefined;
  for (const run of kept) {
    if (run !== undefined && (most === undefined || run.requiredHeight > most.requiredHeight)) most = run;
  }
  return most;
}

/**
 * The run that stands for a step of height: the tightest that clears there and not one step lower, else the next that
 * is tighter; undefined when none is as tight.
 */
export const runOfStep = (kept: TightestRuns, step: number): DrawnRun | undefined =>
  kept.slice(step).find((run) => run !== undefined);

/** Of two sets of runs the tightest of each step. */
export const tightestOfBoth = (some: TightestRuns, others: TightestRuns): TightestRuns =>
  Array.from({ length: Math.max(some.length, others.length) }, (_, n) => tightestOf([some[n], others[n]]));
