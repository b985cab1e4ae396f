import {
  type ClearanceSetup,
  createMomentTable,
  createRunTable,
  evaluateRuns,
  fillMomentTable,
  type RunTable,
  type TyreSetup,
} from '../src/index.ts';

const columns = (values: Float64Array): Float64Array[] =>
  Array.from(values, (value) => Float64Array.of(value));

/** The kernel's answers for a single run; `floors` as in `evaluateRuns`. */
export function kernelRun(
  setup: ClearanceSetup,
  tyreSetup: TyreSetup,
  car: Float64Array,
  tyre: Float64Array,
  axleHeight: number,
  floors?: Float64Array,
): RunTable {
  const table = createRunTable(setup, 1);
  const moments = createMomentTable(1);
  fillMomentTable(setup, columns(car), 1, moments);
  const axles = Float64Array.of(axleHeight);
  evaluateRuns(setup, tyreSetup, columns(car), columns(tyre), moments, axles, 1, table, floors);
  return table;
}
