import { CAR_INPUTS, TYRE_INPUTS } from '@tubgap/core';
import {
  type CaseSetup,
  createColumns,
  type Direction,
  type DrawColumns,
  fillColumns,
  normalSpace,
} from '@tubgap/simulation';
import { fillFromNormals } from '@tubgap/uncertainty';

/** Runs that stand for all the ways in which a run may go, the same for every car that is looked at. */
export const COMMON_RUNS = 48;

/** One car as a point of the space says, with what changes from run to run at its middle, or as in the common runs. */
export interface CarState {
  /** One draw of CAR_INPUTS and of TYRE_INPUTS a tyre of the case. */
  car: readonly Float64Array[];
  tyre: readonly Float64Array[];
  /** A number that belongs to the measuring and not to the car: standard normal. */
  nuisance: (name: string) => number;
  /** This car's values beside those of the common runs, a tyre; filled when first asked for. */
  runs: () => readonly DrawColumns[];
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
  /** The car at a point; overwritten by the next call. */
  at: (point: Float64Array) => CarState;
}

const one = new Float64Array(1);

/**
 * Opens the space of a case.
 * @param speaks  whether the evidence speaks of a stream
 */
export function openCarSpace(
  setup: CaseSetup,
  seed: number,
  speaks: (stream: string) => boolean,
  nuisances: readonly string[],
): CarSpace {
  const directions = normalSpace(setup).directions.filter(
    ({ fixedForCar, stream }) => fixedForCar && speaks(stream),
  );
  const car = setup.tyres.map((tyre) => tyre.centralCar.slice());
  const tyre = setup.tyres.map((own) => own.centralTyre.slice());
  const columns = createColumns(setup.tyres);
  const counts = setup.tyres.map(() => COMMON_RUNS);
  fillColumns(setup.tyres, seed, 'evidence/', 0, counts, 'run', columns);
  let point = new Float64Array(0);
  let runsFilled = false;
  const state: CarState = {
    car,
    tyre,
    nuisance: (name) => point[directions.length + nuisances.indexOf(name)]!,
    runs: () => {
      if (!runsFilled) fillRuns();
      runsFilled = true;
      return columns;
    },
  };
  function fillRuns(): void {
    setup.tyres.forEach((own, i) => {
      CAR_INPUTS.forEach((_, c) => {
        if (own.car[c]!.each === 'car') columns[i]!.car[c]!.fill(car[i]![c]!, 0, COMMON_RUNS);
      });
      TYRE_INPUTS.forEach((_, c) => {
        if (own.tyre[c]!.each === 'car') columns[i]!.tyre[c]!.fill(tyre[i]![c]!, 0, COMMON_RUNS);
      });
    });
  }
  /** Inputs of the car that a class shares have one column and one direction, but a value in every tyre's draw. */
  const places = directions.map(({ targets }) =>
    targets.map(({ input, tyre: first, group, index }) => ({
      input,
      into: setup.tyres.flatMap((own, i) =>
        group === 'tyre' ? (i === first ? [tyre[i]!] : []) : own.car[index] === input ? [car[i]!] : [],
      ),
      index,
    })),
  );
  return {
    setup,
    directions,
    nuisances,
    dimension: directions.length + nuisances.length,
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
