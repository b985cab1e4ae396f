export {
  type AssumedValue,
  type Case,
  type CaseTub,
  type CaseTyre,
  type Envelope,
  type Follows,
  type HardPoint,
  LOG_COLUMNS,
  type LogColumn,
  type RunLog,
  type UncertainInput,
} from './case.ts';
export type { Each, Group } from './defaults/row.ts';
export { labelAt } from './defaults/table-path.ts';
export { allowedRange } from './defaults.ts';
export { type Issue, type IssueCode, issueLines, issueText, type Read } from './issue.ts';
export { caseJsonSchema } from './json-schema.ts';
export { exactLawWords } from './learned/law-words.ts';
export { inputsOf, learnedCase, learnedTyre, plainLaw, withoutLearned } from './learned/learned-case.ts';
export {
  LEARNED_VERSION,
  type LearnedFile,
  type LearnedInput,
  learnedText,
  readLearned,
} from './learned/learned-file.ts';
export { type CaseSource, parseCase } from './parse-case.ts';
export { type CaseText, readCaseText } from './text/case-text.ts';
export { type Cell, type CsvFault, csvRows, readCsv, type Table } from './text/csv.ts';
export type { Setting } from './text/setting.ts';
export { placeIn } from './text/value-path.ts';
