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
}

/** One state of a case with every input at its middle value, or at the values given. */
export function caseState(setup: CaseSetup, choice: StateChoice): ClearanceState {
  const tyre = setup.tyres[choice.tyre]!;
  const build = setup.tyres[setup.buildIndex]!;
  const own = choice.tyreValues ?? tyre.centralTyre;
  return clearanceState({
    car: choice.car ?? tyre.centralCar,
    tyre: own,
    tyreSetup: tyre.setup,
    run: setup.clearance,
    build: {
      tyre: choice.tyre === setup.buildIndex ? own : build.centralTyre,
      tyreSetup: build.setup,
      pressure: setup.buildPressure,
      ...(setup.axleHeight === undefined ? {} : { axleHeight: setup.axleHeight }),
    },
    tub: setup.clearance.tubs[choice.tub]!,
    topHeight: choice.topHeight,
    reserve: setup.clearance.reserve,
    moment: choice.moment,
    growthFactor: setup.clearance.growthFactor,
  });
}
