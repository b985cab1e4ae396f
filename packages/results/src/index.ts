export { buildOf } from './build.ts';
export {
  addToResults,
  CASE_FILE,
  CASE_FOLDER,
  mendResults,
  RESULT_FILE,
  ResultsError,
  writeResults,
} from './folder.ts';
export { readResults, resultText } from './result-file.ts';
export { RESULT_VERSION, type Result, resultSchema } from './schema.ts';
export { openSealed, sealedText } from './seal.ts';
export { isStudy, keepForStudies, readStudy, STUDY_FILE, studyText } from './study-folder.ts';
export { STUDY_VERSION, type Study, type StudyCell, type StudyOf, studySchema } from './study-schema.ts';
