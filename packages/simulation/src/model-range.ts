import type { UncertainInput } from '@tubgap/casefile';
import {
  createMomentTable,
  createRunTable,
  evaluateRuns,
  fillMomentTable,
  type RunTable,
} from '@tubgap/core';
import { formatQuantity } from '@tubgap/units';
import { ModelRangeError } from './count.ts';
import type { DrawColumns } from './draws.ts';
import { type CaseSetup, clearanceOf } from './setup.ts';

/** A run's inputs, one value each. */
interface OneRun {
  car: Float64Array[];
  tyre: Float64Array[];
  axleHeight: number;
}

function isKnown(setup: CaseSetup, tyre: number, { car, tyre: own, axleHeight }: OneRun): boolean {
  const moments = createMomentTable(1);
  const clearance = clearanceOf(setup, tyre);
  const table = createRunTable(clearance, 1);
  fillMomentTable(clearance, car, 1, moments);
  const axles = Float64Array.of(axleHeight);
  evaluateRuns(clearance, setup.tyres[tyre]!.setup, car, own, moments, axles, 1, table);
  return !Number.isNaN(table.requiredHeight[0]!);
}

/** Inputs with which at their middle the run is known to the model, each as its path, label and value in that run. */
function culprits(setup: CaseSetup, tyre: number, run: OneRun): string[] {
  const own = setup.tyres[tyre]!;
  const named = (group: 'car' | 'tyre', inputs: readonly UncertainInput[], middles: readonly number[]) =>
    inputs.flatMap((input, index) => {
      if (run[group][index]![0] === middles[index]) return [];
      const values = run[group].with(index, Float64Array.of(middles[index]!));
      if (!isKnown(setup, tyre, { ...run, [group]: values })) return [];
      return [`${input.path} (${input.label}) was ${formatQuantity(run[group][index]![0]!, input.kind)}`];
    });
  return [
    ...named('tyre', own.tyre, Array.from(own.centralTyre)),
    ...named('car', own.car, Array.from(own.centralCar)),
  ];
}

/** Why an evaluated run came out of the model as no number, without the end of the sentence that says what to do. */
export function unknownRun(
  setup: CaseSetup,
  tyre: number,
  columns: Pick<DrawColumns, 'car' | 'tyre'>,
  axleHeights: Float64Array,
  run: number,
): string {
  const only = (values: readonly Float64Array[]) => values.map((column) => Float64Array.of(column[run]!));
  const one = { car: only(columns.car), tyre: only(columns.tyre), axleHeight: axleHeights[run]! };
  const named = culprits(setup, tyre, one);
  const which = named.length === 0 ? 'several of its inputs together are' : `${named.join('; ')}, which is`;
  return `a run with the tyre ${setup.tyres[tyre]!.name} came out as no number: ${which} outside what the model knows`;
}

/**
 * Refuses a block of evaluated runs in which one came out as no number, and names the input that made it one.
 * @param tyre  index of the tyre that ran
 * @param columns  its inputs, one array of runs each
 * @param axleHeights  of the runs, m
 * @throws ModelRangeError
 */
export function refuseUnknown(
  setup: CaseSetup,
  tyre: number,
  columns: DrawColumns,
  axleHeights: Float64Array,
  table: RunTable,
  count: number,
): void {
  for (let run = 0; run < count; run++) {
    if (!Number.isNaN(table.requiredHeight[run]!)) continue;
    throw new ModelRangeError(
      `${unknownRun(setup, tyre, columns, axleHeights, run)}. Narrow the law, or cut it off where the quantity ends.`,
    );
  }
}
