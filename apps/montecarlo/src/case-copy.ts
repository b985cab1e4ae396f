import type { Setting } from '@tubgap/casefile';
import { CASE_FILE, CASE_FOLDER } from '@tubgap/results';

/** What a run was given on its command line beside the case file. */
export interface GivenOptions {
  draws?: number | undefined;
  cars?: number | undefined;
  seed?: number | undefined;
  set?: readonly Setting[] | undefined;
}

/** A word of a command line in double quotes, as a shell reads it back. */
const quoted = (word: string): string => `"${word.replace(/[\\"$`]/g, '\\$&')}"`;

/** Options that take a number, as words of a command line: those that were given. */
export const numberWords = (numbers: Readonly<Record<string, number | undefined>>): string[] =>
  Object.entries(numbers).flatMap(([name, value]) =>
    value === undefined ? [] : [`--${name}`, String(value)],
  );

/** The command that repeats a run from its results folder alone. */
export function repeatCommand({ draws, cars, seed, set = [] }: GivenOptions): string {
  const numbers = numberWords({ draws, cars, seed });
  const settings = set.map(({ path, value }) => `--set ${quoted(`${path}=${value}`)}`);
  return ['tubgap pick', CASE_FILE, ...numbers, ...settings].join(' ');
}

/** The case and the files that it names, as they were read, in the case's own folder of the results. */
export function caseCopy(text: string, named: Readonly<Record<string, string>>): Record<string, string> {
  const files: Record<string, string> = { [CASE_FILE]: text };
  for (const [name, content] of Object.entries(named)) files[`${CASE_FOLDER}/${name}`] ??= content;
  return files;
}
