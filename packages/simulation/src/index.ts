export {
  type Assessment,
  assessCase,
  LARGER_GROWTH,
  type Perform,
  type Progress,
  performHere,
} from './assess.ts';
export type { DecidingBound } from './bound-tail.ts';
export type { Caution } from './cautions.ts';
export { ModelRangeError } from './count.ts';
export { type EnvelopeRoom, envelopeRoom, type TubReach, tubReach } from './envelope.ts';
export { stepAt } from './heights.ts';
export { INCH, SIXTEENTH } from './inches.ts';
export type { GapFigures } from './look.ts';
export { middleValue } from './middle.ts';
export {
  lookAtOutlines,
  type Outlines,
  type PickAngleGaps,
  type ShownRun,
  type TyreOutlines,
} from './outlines.ts';
export { GAP_ANGLES, type Pick, type PickedHeight } from './pick.ts';
export { countedRisk, type Risk } from './risk.ts';
export type { RunTallies } from './run-risk.ts';
export { type CaseSetup, caseSetup, type RunTyre } from './setup.ts';
export { type ShareFigures, WHOLE_CLOSING } from './shares.ts';
export { type TyreSides, tyreSides } from './side-rooms.ts';
export { caseState, type StateChoice } from './state.ts';
export { HEIGHT_STEPS, type Tally, type TubTally, touchesByHeight } from './tally.ts';
export { openWorkplace, performTask, type Task, type TaskResult, type Workplace } from './tasks.ts';
export { findTolerances, type ToleranceRow, type Tolerances } from './tolerances.ts';
