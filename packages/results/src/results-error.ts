/** Something is wrong with a results folder; the message says what, where and what to do. */
export class ResultsError extends Error {
  /** With which a command ends for it: something is to mend. */
  readonly exitCode: number = 2;
}

/** A folder is there, but holds no results of a pick. */
export class NoPick extends ResultsError {}

/** A results folder cannot be taken for writing: the place is at fault, or what stands there, and nothing was run. */
export class ResultsRefused extends ResultsError {}

/** Somebody else is writing there just now. */
export class ResultsHeld extends ResultsRefused {}

/** The disk took nothing more: neither the input nor what stands there is at fault. */
export class DiskRefused extends ResultsError {
  override readonly exitCode = 1;
}

/** Why the disk refused, in its own words. */
export const reasonOf = (error: unknown): string => (error as Error).message;
