import { folderName, settingOption, unitsOption, wholeNumber } from './readers.ts';

/** Folder in which results are filed when nothing is said. */
export const RESULTS_FOLDER = 'results';

/** Options that several verbs share, each with what is taken when it is left out, and its reader. */
export const RESULTS = [
  '--results <folder>',
  `folder in which results are filed, each under its case’s name; left out: ${RESULTS_FOLDER}, here`,
] as const;
export const NAME = [
  '--name <name>',
  'name of the results in that folder, so that a second study of the case leaves the first as it is; left out: the case’s, with the verb behind it',
  folderName,
] as const;
export const DRAWS = [
  '--draws <number>',
  'simulated runs, 100,000,000 at most; left out: the case’s',
  wholeNumber(1, Number.MAX_SAFE_INTEGER),
] as const;
export const CARS = [
  '--cars <number>',
  'simulated cars for the season risk; left out: the case’s',
  wholeNumber(1, 1_000_000),
] as const;
export const SEED = [
  '--seed <number>',
  'seed of the random numbers: the same seed gives the same answer; left out: the case’s',
  wholeNumber(0, Number.MAX_SAFE_INTEGER),
] as const;
export const WORKERS = [
  '--workers <number>',
  'threads that share the work; the answer does not depend on them; left out: one a core',
  wholeNumber(1, 256),
] as const;
export const SET = [
  '--set <path=value>',
  'value in place of the file’s: "run.trapSpeed=~230 mph" moves the middle and keeps the spread, without the ~ it is exact; may be repeated; left out: as the file has it',
  settingOption,
] as const;

export const UNITS = [
  '--units <inch|metric>',
  'in which everything is told: inch (sixteenths) or metric (whole millimetres); left out: as the case says or is written',
  unitsOption,
] as const;

/** The argument of every verb that reads a case. */
export const CASE = ['<case>', 'case file (YAML); - reads it from standard input'] as const;

/** What stands below the options of a verb. */
export const example = (...lines: readonly string[]): string =>
  `\nExample${lines.length > 1 ? 's' : ''}:\n${lines.map((line) => `  ${line}`).join('\n')}`;
