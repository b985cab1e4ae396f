export { beginFolder } from './begin-folder.ts';
export { buildOf } from './build.ts';
export { type ClassLimits, leastAccepted, limitsOf } from './class-limits.ts';
export { CASE_FILE, CASE_FOLDER, RESULT_FILE, SAMPLE_FILE } from './folder.ts';
export {
  bringBackCut,
  type FolderHold,
  holdFolder,
  holdResults,
  holdsResults,
  type ResultsHold,
  writeInto,
} from './hold.ts';
export { resultJsonSchema, sampleJsonSchema, studyJsonSchema } from './json-schema.ts';
export { lockSoon } from './lock-soon.ts';
export { makeFolder } from './make-folder.ts';
export { type FolderKind, MARKER_FILE } from './marker.ts';
export { readResults, resultText } from './result-file.ts';
export { DiskRefused, NoPick, ResultsError, ResultsRefused } from './results-error.ts';
export { readSample, type Sample, sampleText } from './sample-file.ts';
export { type DecidedResult, type Result, resultSchema } from './schema.ts';
export { RESULT_VERSION } from './schema-asked.ts';
export { openSealed, sealedText } from './seal.ts';
export { refuseForeign } from './standing.ts';
export { onStop, type StopSignal, stopCode } from './stop-signals.ts';
export { isStudy, readStudy, STUDY_FILE, studyText } from './study-folder.ts';
export { STUDY_VERSION, type Study, type StudyCell, type StudyOf, studySchema } from './study-schema.ts';
export { writeFileWhole } from './whole-file.ts';
