import { type ClearanceState, clearanceState, type Moment } from '@tubgap/core';
import type { CaseSetup } from './setup.ts';

/** Which state of a case is asked for. */
export interface StateChoice {
  tyre: number;
  tub: number;
  /** m */
  topHeight: number;
  moment: Moment;
  /** Values in place of the middle ones, SI, by column. */
  car?: Float64Array;
  tyreValues?: Float64Array;
  /** Axle height of a drawn run, m, in place of the measured or middle one. */
  axleHeight?: number;
}

/** One state of a case with every input at its middle value, or at the values given. */
export function caseState(setup: CaseSetup, choice: StateChoice): ClearanceState {
  const tyre = setup.tyres[choice.tyre]!;
  const build = setup.tyres[setup.buildIndex]!;
  const own = choice.tyreValues ?? tyre.centralTyre;
  const axleHeight = choice.axleHeight ?? setup.axleHeight;
  return clearanceState({
    car: choice.car ?? tyre.centralCar,
    tyre: own,
    tyreSetup: tyre.setup,
    run: tyre.run,
    build: {
      tyre: tyre.tyreName === build.tyreName ? own : build.centralTyre,
      tyreSetup: build.setup,
      pressure: setup.buildPressure,
      ...(axleHeight === undefined ? {} : { axleHeight }),
    },
    tub: setup.clearance.tubs[choice.tub]!,
    topHeight: choice.topHeight,
    reserve: tyre.run.reserve,
    moment: choice.moment,
    growthFactor: setup.clearance.growthFactor,
  });
}
