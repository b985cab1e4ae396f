import { carColumn, gapAtAngle, outlineRadius, tyreColumn } from '@tubgap/core';
import {
  type CaseSetup,
  caseState,
  GAP_ANGLES,
  middleStaticGaps,
  OUTLINE_ANGLES,
  type RunPlace,
} from '@tubgap/simulation';
import { DEGREE } from '@tubgap/units';

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

const radiiOf = (outline: Float64Array): number[] =>
  OUTLINE_ANGLES.map((angle) => outlineRadius(outline, angle));

/** How the car stands in a place, and the gaps to see. */
export function standingAt({ setup, tub, tyre, topHeight }: RunPlace): Standing {
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
