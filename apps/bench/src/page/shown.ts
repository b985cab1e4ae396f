import {
  type ClearanceState,
  carColumn,
  gapAtAngle,
  MOMENTS,
  type Moment,
  outlineRadius,
  tyreColumn,
} from '@tubgap/core';
import {
  type CaseSetup,
  caseState,
  type DrawnRun,
  GAP_ANGLES,
  middleStaticGaps,
  OUTLINE_ANGLES,
} from '@tubgap/simulation';
import { DEGREE } from '@tubgap/units';

/** A run by what it drew. */
type Drawn = Pick<DrawnRun, 'car' | 'tyre' | 'axleHeight'>;

/** Where a tub of a case stands with one of its tyres. */
export interface Place {
  setup: CaseSetup;
  tub: number;
  tyre: number;
  /** m */
  topHeight: number;
}

/** The car standing still on the tyre shown, everything at its middle value. Lengths in m. */
export interface Standing {
  /** Radii at OUTLINE_ANGLES. */
  radii: number[];
  axleHeight: number;
  /** Top of the tub above the track as the car stands on this tyre. */
  topHeight: number;
  /** Gaps to see at GAP_ANGLES. */
  gaps: number[];
  /** Whether this is the tyre by which the tub's place is set. */
  builds: boolean;
}

/** One run at one of its moments, or at a place of the track. */
export interface ShownState {
  state: ClearanceState;
  /** Body down and axle forward from how the car stands on this tyre, m. */
  drop: number;
  forward: number;
  radii: number[];
}

const radiiOf = (outline: Float64Array): number[] =>
  OUTLINE_ANGLES.map((angle) => outlineRadius(outline, angle));

/** How the car stands in a place, and the gaps to see. */
export function standingAt({ setup, tub, tyre, topHeight }: Place): Standing {
  const own = setup.tyres[tyre]!;
  const builds = tyre === setup.buildIndex;
  const state = caseState(setup, { tyre, tub, topHeight, moment: 'launch' });
  const ride = own.centralTyre[tyreColumn('rideHeightChange')]!;
  const slope = own.centralCar[carColumn('axlePathSlope')]!;
  const profile = setup.clearance.tubs[tub]!;
  const crown = topHeight - setup.centralAxleHeight + (builds ? 0 : ride);
  const angles = GAP_ANGLES.map((degrees) => degrees * DEGREE);
  const at = { ahead: profile.centreForward + slope * ride, above: crown - profile.radius };
  // On another tyre than the build tyre the axle stands at that tyre's own loaded radius.
  const axleHeight = builds ? setup.centralAxleHeight : standingAxle(setup, tyre);
  return {
    radii: radiiOf(state.staticOutline),
    axleHeight,
    topHeight: axleHeight + crown,
    gaps: builds
      ? middleStaticGaps(setup, tub, topHeight, GAP_ANGLES)
      : angles.map((angle) => gapAtAngle(state.staticOutline, profile, at, angle)),
    builds,
  };
}

/** Static loaded radius of a tyre at its own pressure, m: the axle height of a car that is built on it. */
function standingAxle(setup: CaseSetup, tyre: number): number {
  const own = setup.tyres[tyre]!;
  const { axleHeight: _, ...rest } = setup;
  return caseState(
    {
      ...rest,
      axleHeight: undefined,
      buildIndex: tyre,
      buildPressure: own.centralTyre[tyreColumn('coldPressure')]!,
    },
    { tyre, tub: 0, topHeight: 1, moment: 'launch' },
  ).staticLoadedRadius;
}

/** A state with its body's place, for drawing. */
export function shownState(
  { setup, tyre }: Place,
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
    radii: radiiOf(state.outline),
  };
}

/** What a run, or the middle of the case, is asked for in a place. */
export const choiceOf = ({ tub, tyre, topHeight }: Place, run: Drawn | undefined) => ({
  tub,
  tyre,
  topHeight,
  ...(run && { car: run.car, tyreValues: run.tyre, axleHeight: run.axleHeight }),
});

/** Every moment that belongs to a run. */
export function momentsOf(place: Place, run: Drawn | undefined): { moment: Moment; state: ClearanceState }[] {
  return MOMENTS.map((moment) => ({
    moment,
    state: caseState(place.setup, { ...choiceOf(place, run), moment }),
  })).filter(({ state }) => state.happens);
}

/** The moment of a run with the least gap in a place. */
export function tightMoment(place: Place, run: Drawn | undefined): { moment: Moment; shown: ShownState } {
  const { moment, state } = momentsOf(place, run).reduce((least, one) =>
    one.state.gap < least.state.gap ? one : least,
  );
  return { moment, shown: shownState(place, run, state) };
}
