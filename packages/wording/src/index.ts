export {
  BLANK,
  type Block,
  figureTable,
  heading,
  line,
  paragraph,
  row,
  rowsOf,
  strongRow,
} from './block.ts';
export { carSpreadWords } from './car-spread.ts';
export { type Column, type ColumnName, columnsOf, madeColumn } from './columns/column.ts';
export { type ExistingReport, existingBrief, existingLines } from './existing.ts';
export { inputNamed, inputWords } from './input.ts';
export {
  largestTyreLines,
  limitLines,
  limitsHeading,
  limitWords,
  mendsByLimits,
  standardLines,
} from './limit.ts';
export { nearestRay, panelWords, reserveWords } from './panel-words.ts';
export { verdictBlocks } from './read-out.ts';
export {
  BOUND,
  boundWords,
  closerThan,
  comeClose,
  comesClose,
  type RiskReport,
  riskWords,
  SURELY,
} from './risk.ts';
export { carsLikeThis, isOfFewCars, type SeasonRuns, seasonWords } from './season.ts';
export { shareWords } from './share.ts';
export {
  COLUMNS_FILE,
  columnsText,
  csvText,
  harmlessCell,
  type SheetTable,
  tableFiles,
  yesNo,
} from './table.ts';
export { unbroken } from './unbroken.ts';
export {
  leastLine,
  type ReportLine,
  raiseWords,
  reserveWith,
  standingWords,
  subjectOf,
  type VerdictReport,
  type VerdictSubject,
  verdictLines,
} from './verdict.ts';
