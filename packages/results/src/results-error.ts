/** Something is wrong with a results folder; the message says what, where and what to do. */
export class ResultsError extends Error {}

/** A results folder cannot be taken for writing: the place is at fault, or what stands there, and nothing was run. */
export class ResultsRefused extends ResultsError {}

/** Why the disk refused, in its own words. */
export const reasonOf = (error: unknown): string => (error as Error).message;
