export { moistAirDensity } from './air/moist.ts';
export { densityAltitude, geopotential, standardAir } from './air/standard.ts';
export { coastingLoad } from './car/coasting.ts';
export { frontLiftAcceleration } from './car/force.ts';
export { largestDrop } from './car/largest-drop.ts';
export { antiSquat, axlePathSlope, type InstantCentre } from './car/linkage.ts';
export {
  MOMENT_LENGTH,
  MOMENTS,
  MOMENTS_LENGTH,
  type Moment,
  type RunSetup,
  TRANSFER,
} from './car/moments.ts';
export { buildLoad, loadedRadius, staticLoadedRadius } from './car/stance.ts';
export { speedAlong } from './car/track-speed.ts';
export { type Gap, gapAtAngle } from './clearance/gap.ts';
export { type HardPointFan, hardGap, hardPointFan } from './clearance/hard-gap.ts';
export { WALLS, type Wall } from './clearance/required-height.ts';
export { SHARES, type Share } from './clearance/shares.ts';
export { smallestGap } from './clearance/smallest-gap.ts';
export type { TubPlace } from './clearance/tub-place.ts';
export { STANDARD_GRAVITY } from './constants.ts';
export { CAR_INPUTS, type CarInput, carColumn, TYRE_INPUTS, type TyreInput, tyreColumn } from './inputs.ts';
export { type AngleGaps, type AngleTable, fillAngles } from './inspect/angles.ts';
export { fillGaps, type GapTable, type TubHeights } from './inspect/gaps.ts';
export { fillHardGaps, type HardGapTable, standingHardGap } from './inspect/hard-gaps.ts';
export type { RunColumns } from './inspect/opened-run.ts';
export { fillShareTable, SHARE_ROWS, type ShareTable } from './inspect/shares.ts';
export {
  type ClearanceSetup,
  createMomentTable,
  createRunTable,
  evaluateRuns,
  fillAxleHeights,
  fillMomentTable,
  type RunTable,
} from './kernel.ts';
export { clearsAtRest, standingOutline, staticGaps } from './standing.ts';
export {
  type ClearanceState,
  clearanceState,
  type StateRequest,
} from './state.ts';
export { type HardPoint, hardPointGap, standsUnderTyre } from './tub/hardpoint.ts';
export { panelMass, type TubPanel, tubPanel } from './tub/panel.ts';
export { ceilingAbove, legReach, type Notch, type Tub, tubGap } from './tub/profile.ts';
export { type SideRoom, type SideSpace, sideRoom, type WheelFit } from './tub/side-room.ts';
export { type DeflectionMeasurement, radialStiffnessFromDrop } from './tyre/deflection.ts';
export { type GrownTyre, grownTyre } from './tyre/grown.ts';
export { CONSTRUCTIONS, type Construction } from './tyre/growth-laws.ts';
export type { TyreSetup } from './tyre/inflated.ts';
export { LOBE_HALF_WIDTH } from './tyre/lobe.ts';
export { outlineRadius } from './tyre/outline.ts';
export { hotPressure } from './tyre/pressure.ts';
export { rollingDrop } from './tyre/rolling.ts';
export { freeRadius, freeRadiusFromRollout, nominalSize, rollout } from './tyre/size.ts';
