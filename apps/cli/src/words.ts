/** Adds an option's words when it was given. */
export const given = (name: string, value: string | undefined): string[] =>
  value === undefined ? [] : [`--${name}`, value];

/** Passes `--set` on, as often as it was given. */
export const repeated = (words: string, before: string[] = []): string[] => [...before, words];
export const settings = (words: readonly string[] = []): string[] => words.flatMap((word) => ['--set', word]);

/** Options that several verbs share, and what is taken when they are left out. */
export const RESULTS = [
  '--results <folder>',
  'folder in which results are filed, each under its case’s name; left out: results, here',
] as const;
export const SEED = [
  '--seed <number>',
  'seed of the random numbers: the same seed gives the same answer; left out: the case’s',
] as const;
export const WORKERS = [
  '--workers <number>',
  'threads that share the work; the answer does not depend on them; left out: one a core',
] as const;
export const SET = [
  '--set <path=value>',
  'value in place of the file’s: "run.trapSpeed=~230 mph" moves the middle and keeps the spread, without the ~ it is exact; may be repeated; left out: as the file has it',
] as const;

/** What stands below the options of a verb. */
export const example = (...lines: readonly string[]): string =>
  `\nExample${lines.length > 1 ? 's' : ''}:\n${lines.map((line) => `  ${line}`).join('\n')}`;
