export { bookAgreement } from './book/book-agreement.ts';
export type { BookCar } from './book/book-car.ts';
export { type CarGrowth, type ModelGrowth, modelGrowth } from './book/book-growth.ts';
export { apartChances, carBelief } from './book/car-belief.ts';
export { carFile } from './book/car-file.ts';
export type { CommonInput, CommonPriors, TapeError } from './book/common-priors.ts';
export { type HeightTeaching, heightTeachings } from './book/height-teachings.ts';
export {
  type BookLearned,
  type BookTask,
  type BookTaskResult,
  learnBook,
  performBookTask,
} from './book/learn-book.ts';
export {
  doubtfulCars,
  type Forecast,
  forecasts,
  foretoldWithout,
  type Gain,
  leaveOneOut,
  type ModelTrust,
  modelTrust,
} from './book/leave-one-out.ts';
export {
  type NewHeights,
  type NewTyre,
  newCars,
  newHeights,
  type StandIn,
  standInFor,
} from './book/new-car.ts';
export { type PreparedCar, prepareCar } from './book/prepare-car.ts';
export { type BrierScore, brierScore, type ReliabilityBin, reliabilityBins } from './book/reliability.ts';
export {
  BOOK_CHAINS,
  type BookBelief,
  type BookEffort,
  bookChain,
  gatherBook,
  sampleBook,
} from './book/sample-book.ts';
export { type ShopPriors, shopPriors, type TyrePriors } from './book/shop-priors.ts';
export { type Teaching, teachings } from './book/teachings.ts';
export type { CarHeights } from './car-heights.ts';
export type { CarSpace, CarState } from './car-space.ts';
export {
  CHECK_FILES,
  type CheckedValue,
  type CheckVerdict,
  type Judgement,
  judgeChecks,
} from './check-verdict.ts';
export { checkedPlaceText, checkedText, checkSummary } from './check-words.ts';
export { commonRunError } from './common-runs.ts';
export { type Conflict, findConflicts, impossibleRubs } from './conflicts.ts';
export { type Contribution, type Contributions, contributionsOf } from './contributions.ts';
export { type FirstTest, planFirstTest, type StepFigures, type TestStep } from './first-test/first-test.ts';
export { type Band, type GrowthCurve, type GrowthPoint, growthCurve } from './growth-curve.ts';
export { enterLine } from './history/enter-line.ts';
export { enteredHistory } from './history/entered.ts';
export {
  ENTRY_KINDS,
  type EntryKind,
  HISTORY_FILE,
  HISTORY_HEADS,
  type History,
  type HistoryEntry,
  isDay,
  readHistory,
} from './history/entries.ts';
export {
  type HistoryReadings,
  historyReadings,
  type Stretch,
  stretchesOf,
  type TyreChange,
} from './history/history-readings.ts';
export { type NewEntry, withEntry } from './history/history-row.ts';
export {
  ENTRY_FIELDS,
  type EntryField,
  type EntryProblems,
  type FieldProblem,
  type TypedEntry,
  typedEntry,
} from './history/typed-entry.ts';
export {
  type Belief,
  type Evidence,
  type Learned,
  type Refusal,
  sampleBelief,
  shortenBelief,
  weighEvidence,
} from './learn/recipe.ts';
export {
  conflictLines,
  type Reader,
  refusalWords,
  stopSentences,
} from './learn/refusal-words.ts';
export { mustStop, type Stops } from './learn/stops.ts';
export type {
  LearnedSummary,
  Origin,
} from './learned.ts';
export { readLog } from './log/read-log.ts';
export type { EvidenceKind, Part } from './parts/part.ts';
export { evidenceParts } from './parts/parts.ts';
export { pickEstimate, runDepartures } from './pick-estimate.ts';
export { removeImplausible } from './plausible.ts';
export { type Believed, believe, type Effort, priorPoints, spaceOf } from './posterior.ts';
export {
  type AsBuilt,
  type CheckedPlace,
  type CheckReading,
  countLeftOut,
  type LogReading,
  type MarkReading,
  noReadings,
  placeText,
  type Readings,
  type Rejected,
  type RunsReading,
  rowsOf,
} from './readings.ts';
export { type Rub, rubRaise } from './rub.ts';
export { conflictText } from './settled-belief.ts';
export { assessShort, type ShortAssessment, sharesAt, standingVerdict } from './short-assessment.ts';
export { CENTRE_MEASURED, MEASURED_GAP, MEASURED_HARD_GAP, TOP_MEASURED } from './tables/columns.ts';
export { readHandTables } from './tables/hand-readings.ts';
export { BUILT_FILE, HAND_TABLES, readAsBuilt, readHandTable } from './tables/hand-tables.ts';
export type { NumberColumn } from './tables/measured-table.ts';
export { LARGEST_LOG, LARGEST_TABLE } from './tables/table-text.ts';
export { touchPlace } from './touched.ts';
export { wholeCarSpace, wholeCars } from './whole-car.ts';
export { measurementWorths, type Worth } from './worth.ts';
