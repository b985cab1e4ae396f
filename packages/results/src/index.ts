export {
  addToResults,
  CASE_FILE,
  mendResults,
  RESULT_FILE,
  ResultsError,
  readResults,
  resultText,
  writeResults,
} from './folder.ts';
export { RESULT_VERSION, type Result, resultSchema } from './schema.ts';
