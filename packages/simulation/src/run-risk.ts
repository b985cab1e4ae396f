import {
  createMomentTable,
  createRunTable,
  evaluateRuns,
  fillAxleHeights,
  fillMomentTable,
  type RunTable,
} from '@tubgap/core';
import { BLOCK } from '@tubgap/statistics';
import { createWorstRun, type WorstRun } from './count.ts';
import { createColumns, type DrawColumns, fillColumns } from './draws.ts';
import { refuseUnknown } from './model-range.ts';
import { type CaseSetup, clearanceOf, isSameTrack } from './setup.ts';

/** Room for one block of every tyre's runs, used again from block to block. */
export interface BlockRoom {
  columns: DrawColumns[];
  tables: RunTable[];
  axleHeights: Float64Array;
  /** Moments of each tyre's runs; tyres with the same car share one table. */
  moments: Float64Array[];
  /** Moments and tables that another room fills with those of the same runs. */
  filledElsewhere?: ReadonlySet<Float64Array | RunTable>;
  worst: WorstRun;
  /**
   * Lowest top height in question of each tyre in each of the setup's tubs, m: what runs need is then told from there on,
   * and much faster. They belong to the tyres and tubs that they were found for. Without them every height is.
   */
  floors?: readonly Float64Array[];
}

/** Tyre whose runs have the same car down the same track, the first of them. */
function sameCar({ tyres }: CaseSetup, tyre: number): number {
  const own = tyres[tyre]!;
  return tyres.findIndex(
    (other) => other.car.every((input, c) => input === own.car[c]) && isSameTrack(other.run, own.run),
  );
}

function momentTables(setup: CaseSetup): Float64Array[] {
  const tables: Float64Array[] = [];
  setup.tyres.forEach((_, i) => {
    tables.push(tables[sameCar(setup, i)] ?? createMomentTable(BLOCK));
  });
  return tables;
}

export function createBlockRoom(setup: CaseSetup): BlockRoom {
  return {
    columns: createColumns(setup.tyres),
    tables: setup.tyres.map((_, i) => createRunTable(clearanceOf(setup, i), BLOCK)),
    axleHeights: new Float64Array(BLOCK),
    moments: momentTables(setup),
    worst: createWorstRun(setup),
  };
}

/** Draws one block of runs of every tyre, one run per sampled car; other prefixes are other runs. */
export function drawBlock(
  setup: CaseSetup,
  seed: number,
  block: number,
  count: number,
  room: BlockRoom,
  prefix = '',
): void {
  const counts = setup.tyres.map(() => count);
  fillColumns(setup.tyres, seed, prefix, block, counts, 'both', room.columns);
}

/** Axle heights of runs whose columns are filled, m: measured, or from the build tyre in each draw. */
export function axleHeightsOf(
  setup: CaseSetup,
  columns: readonly DrawColumns[],
  count: number,
  axleHeights: Float64Array,
): void {
  if (setup.axleHeight !== undefined) {
    axleHeights.fill(setup.axleHeight, 0, count);
    return;
  }
  const build = setup.tyres[setup.buildIndex]!;
  const { car, tyre } = columns[setup.buildIndex]!;
  fillAxleHeights(build.setup, setup.buildPressure, car, tyre, count, axleHeights);
}

/** Axle heights of a room's filled block. */
export function fillBlockAxleHeights(setup: CaseSetup, room: BlockRoom, count: number): void {
  axleHeightsOf(setup, room.columns, count, room.axleHeights);
}

/**
 * Evaluates the filled columns of one tyre, axle heights filled.
 * @param momentsFilled  whether another tyre with the same car inputs has filled the moments already
 * @throws ModelRangeError that names an input outside the model
 */
export function evaluateTyre(
  setup: CaseSetup,
  room: BlockRoom,
  tyre: number,
  count: number,
  momentsFilled = false,
): void {
  const columns = room.columns[tyre]!;
  const moments = room.moments[tyre]!;
  if (!momentsFilled && !room.filledElsewhere?.has(moments)) {
    fillMomentTable(setup.tyres[tyre]!.run, columns.car, count, moments);
  }
  evaluateRuns(
    clearanceOf(setup, tyre),
    setup.tyres[tyre]!.setup,
    columns.car,
    columns.tyre,
    moments,
    room.axleHeights,
    count,
    room.tables[tyre]!,
    room.floors?.[tyre],
  );
  refuseUnknown(setup, tyre, columns, room.axleHeights, room.tables[tyre]!, count);
}

/** Evaluates the filled columns of a block for every tyre. @throws ModelRangeError that names an input outside the model */
export function evaluateBlock(setup: CaseSetup, room: BlockRoom, count: number): void {
  fillBlockAxleHeights(setup, room, count);
  setup.tyres.forEach((_, i) => {
    if (room.filledElsewhere?.has(room.tables[i]!)) return;
    evaluateTyre(setup, room, i, count, sameCar(setup, i) !== i);
  });
}
