import { CAR_INPUTS, TYRE_INPUTS } from '@tubgap/core';
import {
  type CaseSetup,
  createColumns,
  type Direction,
  type DrawColumns,
  fillColumns,
  normalSpace,
  setDirection,
} from '@tubgap/simulation';
import {
  BLOCK,
  fillFromNormals,
  normalQuantile,
  SOBOL_DIMENSIONS,
  scrambledSobolPoints,
} from '@tubgap/statistics';

/**
 * Runs that stand for all the ways in which a run may go, the same for every car that is looked at: a power of two, for
 * they are scrambled Sobol' points. Few to begin with, and at most as many as a block of draws holds.
 */
export const FEWEST_RUNS = 256;
export const MOST_RUNS = BLOCK;

/** One car as a point of the space says, with what changes from run to run at its middle, or as in the common runs. */
export interface CarState {
  /** One draw of CAR_INPUTS and of TYRE_INPUTS a tyre of the case. */
  car: readonly Float64Array[];
  tyre: readonly Float64Array[];
  /** A number that belongs to the measuring and not to the car: standard normal. */
  nuisance: (name: string) => number;
  /** This car's values beside those of the common runs, a tyre; filled when first asked for. */
  runs: () => readonly DrawColumns[];
  /** How many those are. */
  runCount: number;
}

/**
 * What is fixed for a car as a standard normal space: a coordinate for each input that the evidence speaks of, then one
 * for each number that belongs to the measuring. What the evidence says nothing of stays at its middle.
 */
export interface CarSpace {
  setup: CaseSetup;
  directions: readonly Direction[];
  nuisances: readonly string[];
  dimension: number;
  /** Common runs that stand for what changes from run to run. */
  runCount: number;
  /** The car at a point; overwritten by the next call. */
  at: (point: Float64Array) => CarState;
}

const one = new Float64Array(1);

/**
 * What changes from run to run, over some runs that spread evenly over all the ways in which a run may go: scrambled
 * Sobol' points, an input a dimension; inputs beyond the last dimension are drawn.
 */
function commonRuns(
  setup: CaseSetup,
  seed: number,
  directions: readonly Direction[],
  count: number,
): DrawColumns[] {
  const columns = createColumns(setup.tyres);
  const counts = setup.tyres.map(() => count);
  fillColumns(setup.tyres, seed, 'evidence/', 0, counts, 'run', columns);
  const numbers = new Float64Array(count);
  directions
    .filter(({ fixedForCar }) => !fixedForCar)
    .slice(0, SOBOL_DIMENSIONS)
    .forEach((direction, k) => {
      scrambledSobolPoints(k + 1, seed, `evidence/${direction.stream}`)(0, numbers, count);
      for (let run = 0; run < count; run++) numbers[run] = normalQuantile(numbers[run]!);
      setDirection(direction, numbers, count, columns);
    });
  return columns;
}

/**
 * Opens the space of a case.
 * @param seed  of the common runs: another one has others
 * @param speaks  whether the evidence speaks of a stream
 * @param runCount  common runs, a power of two, at most MOST_RUNS
 */
export function openCarSpace(
  setup: CaseSetup,
  seed: number,
  speaks: (stream: string) => boolean,
  nuisances: readonly string[],
  runCount: number,
): CarSpace {
  const every = normalSpace(setup).directions;
  const directions = every.filter(({ fixedForCar, stream }) => fixedForCar && speaks(stream));
  const car = setup.tyres.map((tyre) => tyre.centralCar.slice());
  const tyre = setup.tyres.map((own) => own.centralTyre.slice());
  let columns: DrawColumns[] | undefined;
  let point = new Float64Array(0);
  let runsFilled = false;
  /** What every column of the car's holds in all its runs, so that only what changed is written. */
  const held = setup.tyres.map(() => ({
    car: new Float64Array(CAR_INPUTS.length).fill(Number.NaN),
    tyre: new Float64Array(TYRE_INPUTS.length).fill(Number.NaN),
  }));
  const state: CarState = {
    car,
    tyre,
    nuisance: (name) => point[directions.length + nuisances.indexOf(name)]!,
    runs: () => {
      columns ??= commonRuns(setup, seed, every, runCount);
      if (!runsFilled) fillRuns(columns);
      runsFilled = true;
      return columns;
    },
    runCount,
  };
  function fillRuns(into: readonly DrawColumns[]): void {
    const fill = (column: Float64Array, now: Float64Array, values: Float64Array, c: number): void => {
      if (values[c] === now[c]) return;
      column.fill(values[c]!, 0, runCount);
      now[c] = values[c]!;
    };
    setup.tyres.forEach((own, i) => {
      own.car.forEach(({ each }, c) => {
        if (each === 'car') fill(into[i]!.car[c]!, held[i]!.car, car[i]!, c);
      });
      own.tyre.forEach(({ each }, c) => {
        if (each === 'car') fill(into[i]!.tyre[c]!, held[i]!.tyre, tyre[i]!, c);
      });
    });
  }
  /** Inputs of the car, or of a tyre, that classes share have one column and one direction, but a value in every tyre's draw. */
  const places = directions.map(({ targets }) =>
    targets.map(({ input, group, index }) => ({
      input,
      into: setup.tyres.flatMap((own, i) =>
        own[group][index] === input ? [(group === 'car' ? car : tyre)[i]!] : [],
      ),
      index,
    })),
  );
  return {
    setup,
    directions,
    nuisances,
    dimension: directions.length + nuisances.length,
    runCount,
    at: (where) => {
      point = where as Float64Array<ArrayBuffer>;
      runsFilled = false;
      places.forEach((targets, d) => {
        for (const { input, into, index } of targets) {
          one[0] = where[d]!;
          fillFromNormals(input.law, one, one, 1);
          const value = Math.max(input.floor ?? Number.NEGATIVE_INFINITY, one[0]!);
          for (const values of into) values[index] = value;
        }
      });
      return state;
    },
  };
}
