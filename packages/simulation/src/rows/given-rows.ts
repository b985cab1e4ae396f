import {
  CAR_INPUTS,
  createMomentTable,
  createRunTable,
  evaluateRuns,
  fillAxleHeights,
  fillMomentTable,
  TYRE_INPUTS,
} from '@tubgap/core';
import { BLOCK } from '@tubgap/statistics';
import { unknownRun } from '../model-range.ts';
import { type CaseSetup, clearanceOf } from '../setup.ts';
import { type AskedGaps, openAnswers, type RowAnswers } from './row-answers.ts';
import type { RowInput } from './row-inputs.ts';

/** A run that somebody asks about: what is not given stands at its middle. */
export interface GivenRun {
  tyre: number;
  /** SI, by index among the inputs that were opened. */
  values: ReadonlyMap<number, number>;
  /** Axle above the track where the tub's place was set, m; undefined: as the case has it. */
  axleHeight: number | undefined;
}

/** What the model says of given runs of one tyre. */
export interface GivenAnswers {
  /** Place of each among the runs that were given. */
  places: number[];
  axleHeights: Float64Array;
  answers: RowAnswers;
  /** Runs that came out as no number: place among those that were given, and why. */
  unknown: { place: number; why: string }[];
}

/**
 * Opens the model for runs that are given: the kernel of the draws, so that a draw which is given gets the same bits.
 * @param inputs  as `rowInputs` has them
 * @returns works out up to BLOCK runs, the tyres one after another
 */
export function openGiven(
  setup: CaseSetup,
  inputs: readonly RowInput[],
  asked: AskedGaps | undefined,
): (runs: readonly GivenRun[]) => GivenAnswers[] {
  const answersOf = openAnswers(setup, asked);
  const columns = {
    car: CAR_INPUTS.map(() => new Float64Array(BLOCK)),
    tyre: TYRE_INPUTS.map(() => new Float64Array(BLOCK)),
  };
  const table = createRunTable(clearanceOf(setup, 0), BLOCK);
  const moments = createMomentTable(BLOCK);
  const axleHeights = new Float64Array(BLOCK);
  const build = setup.tyres[setup.buildIndex]!;

  const fillAxles = (tyre: number, runs: readonly GivenRun[]): void => {
    if (setup.axleHeight === undefined) {
      const middle = build.centralTyre;
      const own =
        setup.tyres[tyre]!.tyreName === build.tyreName
          ? columns.tyre
          : TYRE_INPUTS.map((_, c) => new Float64Array(BLOCK).fill(middle[c]!));
      fillAxleHeights(build.setup, setup.buildPressure, columns.car, own, runs.length, axleHeights);
    } else axleHeights.fill(setup.axleHeight);
    runs.forEach(({ axleHeight }, n) => {
      if (axleHeight !== undefined) axleHeights[n] = axleHeight;
    });
  };

  const ofTyre = (tyre: number, places: readonly number[], runs: readonly GivenRun[]): GivenAnswers => {
    const { centralCar, centralTyre, setup: own } = setup.tyres[tyre]!;
    inputs.forEach(({ group, index }, k) => {
      const column = columns[group][index]!;
      const middle = (group === 'car' ? centralCar : centralTyre)[index]!;
      runs.forEach(({ values }, n) => {
        column[n] = values.get(k) ?? middle;
      });
    });
    fillAxles(tyre, runs);
    const count = runs.length;
    const clearance = clearanceOf(setup, tyre);
    fillMomentTable(clearance, columns.car, count, moments);
    evaluateRuns(clearance, own, columns.car, columns.tyre, moments, axleHeights, count, table);
    const answers = answersOf(tyre, columns, axleHeights, table, count);
    const unknown = places.flatMap((place, n) =>
      Number.isNaN(table.requiredHeight[n]!)
        ? [{ place, why: unknownRun(setup, tyre, columns, axleHeights, n) }]
        : [],
    );
    return { places: [...places], axleHeights: axleHeights.slice(0, count), answers, unknown };
  };

  return (runs) =>
    setup.tyres.flatMap((_, tyre) => {
      const places = runs.flatMap((run, place) => (run.tyre === tyre ? [place] : []));
      return places.length === 0
        ? []
        : [
            ofTyre(
              tyre,
              places,
              places.map((place) => runs[place]!),
            ),
          ];
    });
}
