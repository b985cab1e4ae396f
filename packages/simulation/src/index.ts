export { type Assessment, assessCase, type Progress } from './assess/assess.ts';
export type { Decision } from './assess/decision.ts';
export { performTubs } from './assess/insights.ts';
export {
  type CaseRisks,
  type CountedSteps,
  type TubRisks,
  tubRisks,
  type WeighedSteps,
} from './case-risks.ts';
export type { Caution } from './caution.ts';
export { caseCautions } from './cautions.ts';
export { ModelRangeError } from './count.ts';
export type { DecidingBound } from './deciding-bounds.ts';
export { carStream, createColumns, type DrawColumns, fillColumns, tyreStream } from './draws.ts';
export { type EnvelopeRoom, envelopeRoom, type TubReach, tubReach } from './envelope.ts';
export { existingPlace } from './existing.ts';
export { firstLook, lookedAtFirst } from './first-look.ts';
export { heightOf, stepAt } from './heights.ts';
export { touchCentres } from './importance/centres.ts';
export { NO_CENTRES } from './importance/mixture.ts';
export { type Direction, type NormalSpace, normalSpace, setDirection } from './importance/normal-space.ts';
export { partsOf, type Response, tyreResponse } from './importance/response.ts';
export { addWeightedTallies, emptyWeightedTallies } from './importance/weighted-risk.ts';
export { addWeight, emptySteps } from './importance/weighted-tally.ts';
export {
  type AssumedChoice,
  type AssumedCost,
  type AssumedItem,
  type AssumedPlace,
  assumedCosts,
  choiceCost,
  type PerformSetups,
} from './insight/assumed-costs.ts';
export type { CarSpread } from './insight/car-spread.ts';
export type { GapFigures } from './inspect-gaps.ts';
export {
  type AskedTub,
  type JudgedTub,
  type Judgement,
  judgement,
  judgeTub,
  type LeastHeight,
} from './judge-tub.ts';
export { type KeptSample, keptRisks, type OpenTally, openKept } from './kept-sample.ts';
export { findLargestTyre, type LargestTyre } from './limits/largest-tyre.ts';
export type { Limit } from './limits/limit.ts';
export { type JudgedLimits, limitsBy, sampleOf } from './limits/limits-by.ts';
export type { Limited } from './limits/quantities.ts';
export { standardTub } from './limits/standard-tub.ts';
export { middleValue } from './middle.ts';
export { mostFrequentMoment } from './most-frequent-moment.ts';
export { findFastest } from './optimum/find-fastest.ts';
export {
  type Beyond,
  type FoundOptimum,
  findOptimum,
  type Optimum,
  type OptimumGoal,
  type OptimumWork,
} from './optimum/find-optimum.ts';
export { type LatticePlace, MOST_AXES } from './optimum/lattice-search.ts';
export type { OptimumRoom } from './optimum/search-optimum.ts';
export type { OutlinePlace, Outlines, PickAngleGaps, TyreOutlines } from './outlines.ts';
export {
  chosenTub,
  GAP_ANGLES,
  lowestAccepted,
  middleStaticGaps,
  nearestTub,
  type Pick,
  type PickedHeight,
  pickHeights,
} from './pick.ts';
export { FIRST_PLACE, followRun, type TrackRun } from './replay/along-track.ts';
export { type Focus, focusOn } from './replay/focus.ts';
export { gapsAt } from './replay/gaps-at.ts';
export { namedSteps, openRun } from './replay/named-runs.ts';
export { OUTLINE_ANGLES, type OutlineCloud, outlineCloud } from './replay/outline-cloud.ts';
export {
  choiceOf,
  type Drawn,
  momentsOf,
  type RunPlace,
  type ShownRun,
  type ShownState,
  shownRuns,
  shownState,
  tightMoment,
} from './replay/run-states.ts';
export { emptyRunSteps, keepRunSteps, type RunSteps, unseenRuns } from './replay/run-steps.ts';
export {
  type DrawnRun,
  keepTightest,
  runOfStep,
  type TightestRuns,
  tightestOf,
  tightestOfBoth,
} from './replay/tightest-runs.ts';
export { countedRisk, type Risk, type RiskByHeight, riskByHeight } from './risk.ts';
export { type DrawnRows, visitRows } from './rows/drawn-rows.ts';
export { type GivenAnswers, type GivenRun, openGiven } from './rows/given-rows.ts';
export type { AskedGaps, RowAnswers } from './rows/row-answers.ts';
export { type RowInput, rowInputs } from './rows/row-inputs.ts';
export { axleHeightsOf, type BlockRoom, createBlockRoom } from './run-risk.ts';
export { emptyRunTallies, type RunTallies } from './run-tallies.ts';
export {
  type BlockRange,
  mixtureRuns,
  ROUND_BLOCKS,
  type Sample,
  tallyRuns,
  weightedBlocks,
  weightedParts,
} from './runner.ts';
export { tallySeasons } from './season-risk.ts';
export { restCautions, type StandingPlace } from './sense-checks.ts';
export { type CaseSetup, caseSetup, clearanceOf, type RunTyre } from './setup.ts';
export { inspectShares, type ShareFigures, WHOLE_CLOSING } from './shares.ts';
export { type SideFault, sideFaults, sideWords, type TyreSides, tyreSides } from './side-rooms.ts';
export { type BaseSample, type Perform, performHere, pickSample, simulateUntilSettled } from './simulate.ts';
export { caseState, type StateChoice } from './state.ts';
export type { BestPlace, BestPlaceSearch } from './study/best-place.ts';
export { type CarRuns, carRuns, type SetupRuns } from './study/car-runs.ts';
export { type ClassFit, fitClasses, tubSides } from './study/classes.ts';
export { findMove, type Move } from './study/find-move.ts';
export { findPlaces, type TubPlaces } from './study/find-places.ts';
export type { Difference } from './study/paired-difference.ts';
export { type PlacedTub, withCentre } from './study/places.ts';
export { searchSample } from './study/search-places.ts';
export {
  type CellFigures,
  type ComparedGaps,
  type ComparedRisk,
  type Deciding,
  studyFigures,
} from './study/study-figures.ts';
export type { StudySetup } from './study/study-point.ts';
export {
  blocksOf,
  openStudy,
  type PerformStudy,
  performStudyTask,
  runStudy,
  runsOfBlock,
  type Study,
  type StudyPlan,
  type StudySample,
  type StudyTask,
  type StudyTaskResult,
} from './study/study-tasks.ts';
export {
  emptyTally,
  HEIGHT_STEPS,
  shareInTheWay,
  sidesInTheWay,
  type Tally,
  type TubTally,
  touchesByHeight,
} from './tally.ts';
export {
  findingRisks,
  floorTasks,
  gather,
  openingTasks,
  openWorkplace,
  performTask,
  roundTasks,
  type Task,
  type TaskResult,
  type Workplace,
  weightedTasks,
} from './tasks.ts';
export type { ToleranceRow, Tolerances } from './tolerances.ts';
export { preferred, type TubRoom, takesLessRoom } from './tub-preference.ts';
export {
  type HeightRisks,
  heightRisks,
  type Standing,
  type TyreStanding,
  tubVerdict,
  type Verdict,
} from './verdict.ts';
