export { ofRuns } from './chance.ts';
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
export { type RiskReport, riskWords } from './risk.ts';
export { row, wrapped } from './row.ts';
export { shareWords } from './share.ts';
export { csvText, type SheetTable } from './table.ts';
export { unbroken } from './unbroken.ts';
export {
  leastLine,
  type ReportLine,
  raiseWords,
  standingWords,
  subjectOf,
  TOO_FEW_TOUCH,
  type VerdictReport,
  type VerdictSubject,
  verdictLines,
} from './verdict.ts';
