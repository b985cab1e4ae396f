import {
  type ClearanceState,
  carColumn,
  gapAtAngle,
  MOMENTS,
  type Moment,
  outlineRadius,
  tyreColumn,
} from '@tubgap/core';
import type { OutlinePlace } from '../outlines.ts';
import type { CaseSetup } from '../setup.ts';
import { caseState, type StateChoice } from '../state.ts';
import { type NamedRuns, openRun } from './named-runs.ts';
import { OUTLINE_ANGLES } from './outline-cloud.ts';
import type { DrawnRun } from './tightest-runs.ts';

/** A run by what it drew. */
export type Drawn = Pick<DrawnRun, 'car' | 'tyre' | 'axleHeight'>;

/** Where a tub of a case stands with one of its tyres. */
export interface RunPlace {
  setup: CaseSetup;
  tub: number;
  tyre: number;
  /** m */
  topHeight: number;
}

/** One run at one of its moments, or at a place of the track. */
export interface ShownState {
  state: ClearanceState;
  /** Body down and axle forward from how the car stands on this tyre, m. */
  drop: number;
  forward: number;
  /** Outline at OUTLINE_ANGLES, m. */
  radii: number[];
}

/** What a run, or the middle of the case, is asked for in a place. */
export const choiceOf = (
  { tub, tyre, topHeight }: RunPlace,
  run: Drawn | undefined,
): Omit<StateChoice, 'moment'> => ({
  tub,
  tyre,
  topHeight,
  ...(run && { car: run.car, tyreValues: run.tyre, axleHeight: run.axleHeight }),
});

/** A state with its body's place, for drawing. */
export function shownState(
  { setup, tyre }: RunPlace,
  run: Drawn | undefined,
  state: ClearanceState,
): ShownState {
  const own = setup.tyres[tyre]!;
  const car = run?.car ?? own.centralCar;
  const ride = (run?.tyre ?? own.centralTyre)[tyreColumn('rideHeightChange')]!;
  return {
    state,
    drop: state.bodyDrop + state.bump + ride,
    forward: state.forward + car[carColumn('axlePathSlope')]! * ride,
    radii: OUTLINE_ANGLES.map((angle) => outlineRadius(state.outline, angle)),
  };
}

/** Every moment that belongs to a run. */
export function momentsOf(
  place: RunPlace,
  run: Drawn | undefined,
): { moment: Moment; state: ClearanceState }[] {
  return MOMENTS.map((moment) => ({
    moment,
    state: caseState(place.setup, { ...choiceOf(place, run), moment }),
  })).filter(({ state }) => state.happens);
}

/** The moment of a run with the least gap in a place. */
export function tightMoment(place: RunPlace, run: Drawn | undefined): { moment: Moment; shown: ShownState } {
  const { moment, state } = momentsOf(place, run).reduce((least, one) =>
    one.state.gap < least.state.gap ? one : least,
  );
  return { moment, shown: shownState(place, run, state) };
}

/** One simulated run at the moment that leaves it least, SI. */
export interface ShownRun {
  moment: string;
  requiredHeight: number;
  /** Smallest gap with the tub as set out, before the reserve is taken off, and its hub angle. */
  gap: number;
  tightAngle: number;
  /** Body down and axle forward from how the car stands on this tyre, m. */
  drop: number;
  forward: number;
  /** Centre of the tub's arc from the axle, m. */
  centreAhead: number;
  centreAbove: number;
  /** Outline, and gap to the tub, m, at OUTLINE_ANGLES. */
  radii: number[];
  gaps: number[];
}

/**
 * The runs that stand for many, of every tyre in the tub to build as it is set out: a middling one and the one of the
 * accepted risk, each at the moment that leaves it least. None of a tyre of which one was not found.
 * @param named  [tyre][tub]
 */
export const shownRuns = (
  setup: CaseSetup,
  { tub, topHeight }: OutlinePlace,
  named: readonly (readonly NamedRuns[])[],
): ShownRun[][] =>
  named.map((tubs, tyre) => {
    const { middling, rare } = tubs[tub]!;
    if (middling === null || rare === null) return [];
    return [middling, rare].map((kept): ShownRun => {
      const { moment, shown } = tightMoment({ setup, tub, tyre, topHeight }, openRun(setup, tyre, kept));
      const { state, ...body } = shown;
      const { gap, tightAngle, requiredHeight, centreAhead, centreAbove, outline } = state;
      const centre = { ahead: centreAhead, above: centreAbove };
      const profile = setup.clearance.tubs[tub]!;
      return {
        moment,
        requiredHeight,
        gap,
        tightAngle,
        centreAhead,
        centreAbove,
        ...body,
        gaps: OUTLINE_ANGLES.map((angle) => gapAtAngle(outline, profile, centre, angle)),
      };
    });
  });
