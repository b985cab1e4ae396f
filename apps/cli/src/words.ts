/** Adds an option's words when it was given. */
export const given = (name: string, value: string | undefined): string[] =>
  value === undefined ? [] : [`--${name}`, value];

/** Passes `--set` on, as often as it was given. */
export const repeated = (words: string, before: string[] = []): string[] => [...before, words];
export const settings = (words: readonly string[] = []): string[] => words.flatMap((word) => ['--set', word]);
