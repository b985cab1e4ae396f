import { type CarInput, type ClearanceState, carColumn, speedAlong } from '@tubgap/core';
import type { CaseSetup } from '../setup.ts';
import { caseState, type StateChoice } from '../state.ts';

/** Distance from the start at which the launch is taken, m: full thrust, hardly any growth. The core's own. */
export const FIRST_PLACE = 3;

/** One run of a case, to be followed down the track. */
export interface TrackRun {
  /** m from the start: where power takes over from grip, and the trap. */
  shift: number;
  finish: number;
  /** State at a place, m from the start, from FIRST_PLACE to the finish. */
  at: (place: number) => ClearanceState;
}

/** Value at x on straight pieces through points whose places rise. */
function between(x: number, points: readonly (readonly [place: number, value: number])[]): number {
  const after = points.findIndex(([place]) => place >= x);
  if (after < 0) return points.at(-1)![1];
  const [end, last] = points[after]!;
  if (after === 0) return last;
  const [start, first] = points[after - 1]!;
  return end === start ? last : first + ((last - first) * (x - start)) / (end - start);
}

/**
 * A run between its moments: at each place the state at the finish of a run that ends there with the speed that this
 * one has there. Its point mass is then the same, so that launch, middle and finish come out as the core's own moments.
 * Slip and the acceleration left at the finish go straight from moment to moment; what a gear change or the lift adds
 * for an instant is not in it: those are moments of their own.
 */
export function followRun(setup: CaseSetup, choice: Omit<StateChoice, 'moment'>): TrackRun {
  const own = setup.tyres[choice.tyre]!;
  const car = choice.car ?? own.centralCar;
  const value = (name: CarInput): number => car[carColumn(name)]!;
  const finish = own.run.distance;
  const stateOf = (place: number, changes: Partial<Record<CarInput, number>>): ClearanceState => {
    const changed = Float64Array.from(car);
    for (const [name, to] of Object.entries(changes)) changed[carColumn(name as CarInput)] = to;
    const run = { ...own.run, distance: place, finishAccelerationIs: 'relative' as const };
    const tyres = setup.tyres.with(choice.tyre, { ...own, run });
    return caseState({ ...setup, tyres }, { ...choice, car: changed, moment: 'finish' });
  };

  const launch = caseState(setup, { ...choice, moment: 'launch' });
  const change = caseState(setup, { ...choice, moment: 'gear change' });
  // v² = 2 a x while grip limits; the launch's own speed and place give a.
  const shift = Math.min(finish, (FIRST_PLACE * change.carSpeed ** 2) / launch.carSpeed ** 2);
  const factor =
    own.run.finishAccelerationIs === 'relative'
      ? value('finishAcceleration')
      : value('finishAcceleration') / stateOf(finish, { finishAcceleration: 1 }).acceleration;
  const half = 0.5 * finish;
  const slips = (
    [
      [FIRST_PLACE, value('slipAtLaunch')],
      [Math.min(shift, half), value('slipUnderway')],
      [half, value('slipUnderway')],
      [finish, value('slipAtFinish')],
    ] as const
  ).filter(([place], i, all) => i === 0 || place > all[i - 1]![0] || i === all.length - 1);
  const factors = [[half, 1] as const, [finish, factor] as const];
  return {
    shift,
    finish,
    at: (place) =>
      stateOf(place, {
        trapSpeed: speedAlong(car, finish, place),
        slipAtFinish: between(place, slips),
        finishAcceleration: place <= half ? 1 : between(place, factors),
      }),
  };
}
