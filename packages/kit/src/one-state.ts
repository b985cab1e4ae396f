import type { Case } from '@tubgap/casefile';
import {
  type CarInput,
  type ClearanceState,
  carColumn,
  type Moment,
  type TyreInput,
  tyreColumn,
} from '@tubgap/core';
import { caseSetup, caseState } from '@tubgap/simulation';
import { indexOf } from './named.ts';

/** Which state, and values in place of the middle ones, SI. */
export interface StateAsked {
  tyre: string;
  tub: string;
  /** Inside top above the track, m. */
  topHeight: number;
  moment: Moment;
  car?: Partial<Record<CarInput, number>>;
  tyreValues?: Partial<Record<TyreInput, number>>;
}

/**
 * One state of a case with every intermediate value, as `tubgap state` shows it.
 * @throws RangeError when the case has no such tyre or tub
 */
export function oneState(source: Case, asked: StateAsked): ClearanceState {
  const setup = caseSetup(source);
  const tyre = indexOf(source.tyres, asked.tyre, 'tyre');
  const { centralCar, centralTyre } = setup.tyres[tyre]!;
  const car = Float64Array.from(centralCar);
  for (const [name, value] of Object.entries(asked.car ?? {})) car[carColumn(name as CarInput)] = value;
  const tyreValues = Float64Array.from(centralTyre);
  for (const [name, value] of Object.entries(asked.tyreValues ?? {}))
    tyreValues[tyreColumn(name as TyreInput)] = value;
  const tub = indexOf(source.tubs, asked.tub, 'tub');
  return caseState(setup, { tyre, tub, topHeight: asked.topHeight, moment: asked.moment, car, tyreValues });
}
