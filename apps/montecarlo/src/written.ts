import type { DecidedResult, FolderHold } from '@tubgap/results';

/** Results that stand, still held: whoever is told of them may add to their folder. */
export interface Written {
  place: string;
  add: FolderHold['add'];
}

/** What is done with results that stand. @returns an exit code that goes before the verb's own; 0 for none */
export type OnWritten = (written: Written) => number | Promise<number>;

/** The same where a verb is mounted: it may look at what the verb was given, options added to it by the front door too. */
export type WrittenHandler = (
  written: Written,
  given: Readonly<Record<string, unknown>>,
) => number | Promise<number>;

/** How a pick is told. */
export interface PickTeller {
  /** Its decision, as soon as it is settled. @returns whether anything was said */
  decided: (decision: DecidedResult) => Promise<boolean>;
  /** Its results, when they are written. */
  written: OnWritten;
}

/** The same where the verb is mounted: it may look at what the verb was given, options added to it by the front door too. */
export type PickHandler = (given: Readonly<Record<string, unknown>>) => PickTeller;

/** Prints where results stand, and no more. */
export const printPlace: WrittenHandler = ({ place }) => {
  process.stdout.write(`${place}\n`);
  return 0;
};

/** The same of a pick. */
export const printPickPlace: PickHandler = (given) => ({
  decided: () => Promise.resolve(false),
  written: (written) => printPlace(written, given),
});
