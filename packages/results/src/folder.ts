/** Names of the files in a results folder. */
export const RESULT_FILE = 'result.json';
/** What the risks follow from, for the page at the car. */
export const SAMPLE_FILE = 'sample.json';
/** The case as it was read, in a folder of its own with the files that it names. */
export const CASE_FOLDER = 'case';
export const CASE_FILE = `${CASE_FOLDER}/case.yaml`;
