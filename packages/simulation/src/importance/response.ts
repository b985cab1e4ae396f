import { createMomentTable, createRunTable, evaluateRuns, fillMomentTable } from '@tubgap/core';
import { BLOCK } from '@tubgap/statistics';
import { createColumns, type DrawColumns } from '../draws.ts';
import { axleHeightsOf } from '../run-risk.ts';
import { type CaseSetup, clearanceOf } from '../setup.ts';
import { type NormalSpace, targetOf } from './normal-space.ts';

/** Required height of runs with one tyre in one tub, as a function of the inputs alone; hard points left out. */
export interface Response {
  /** Columns to fill before `evaluate`; all inputs stand at their middle values at first. */
  columns: DrawColumns[];
  /** Required heights of the first `count` runs, m; overwritten by the next call. */
  evaluate: (count: number) => Float64Array;
}

/** Opens the response of a case to its inputs for one tyre and one tub. */
export function tyreResponse(setup: CaseSetup, tyre: number, tub: number): Response {
  const clearance = { ...clearanceOf(setup, tyre), tubs: [setup.clearance.tubs[tub]!], hardPoints: [] };
  const table = createRunTable(clearance, BLOCK);
  const moments = createMomentTable(BLOCK);
  const axleHeights = new Float64Array(BLOCK);
  const columns = createColumns(setup.tyres);
  columns.forEach(({ car, tyre: own }, i) => {
    car.forEach((column, c) => {
      column.fill(setup.tyres[i]!.centralCar[c]!);
    });
    own.forEach((column, c) => {
      column.fill(setup.tyres[i]!.centralTyre[c]!);
    });
  });
  return {
    columns,
    evaluate: (count) => {
      axleHeightsOf(setup, columns, count, axleHeights);
      const { car, tyre: own } = columns[tyre]!;
      fillMomentTable(clearance, car, count, moments);
      evaluateRuns(clearance, setup.tyres[tyre]!.setup, car, own, moments, axleHeights, count, table);
      return table.requiredHeight;
    },
  };
}

/** Directions that take part in a tyre's runs: the car's, its own, and the build tyre's, which holds the axle. */
export function partsOf(setup: CaseSetup, space: NormalSpace, tyre: number): number[] {
  return space.directions.flatMap((direction, d) =>
    targetOf(setup, direction, tyre) === undefined ? [] : [d],
  );
}
