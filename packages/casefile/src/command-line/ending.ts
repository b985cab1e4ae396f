import { harmlessLines } from '@tubgap/units';
import { BAD_INPUT, FAULT } from './exit-codes.ts';

/** How a command ends: what is said, and its exit code. Errors that carry their own `exitCode` are such an end. */
export interface Ending {
  message: string;
  exitCode: number;
}

/** Thrown where nothing comes of a command: its message says why. */
export class Stop extends Error implements Ending {
  readonly exitCode: number;

  constructor(message: string, exitCode: number) {
    super(message);
    this.exitCode = exitCode;
  }
}

/** Ends a command: says why nothing comes of it. @throws Stop */
export function stop(message: string, exitCode: number): never {
  throw new Stop(message, exitCode);
}

/**
 * What a command ends with that an error has ended: its own words and code where it has some; what the model does not
 * know is the input's fault; anything else is this program's.
 * @param of  what the command was about, such as its case file
 * @param kept  what is to be said of files when this program has failed, a sentence
 */
export function endingOf(error: unknown, of: string, kept?: string): Ending {
  if (error instanceof Error && typeof (error as Partial<Ending>).exitCode === 'number') {
    return error as Error & Ending;
  }
  if (error instanceof RangeError) return { message: `${of}: ${error.message}`, exitCode: BAD_INPUT };
  const said = [`${of}: this program failed (${String(error).slice(0, 300)}).`, kept, 'Please report it.'];
  return { message: said.filter(Boolean).join(' '), exitCode: FAULT };
}

/** Tells what became of files, a line each, beside what is printed. */
export const printRemarks = (remarks: readonly string[]): void => {
  for (const remark of remarks) process.stderr.write(`${harmlessLines(remark)}\n`);
};

/**
 * Does a command's work and ends with the code that it gives; what is thrown is said, and ends the process where it stands,
 * with every thread that still works for it.
 * @param of  what the command is about, such as its case file
 */
export async function conclude(
  of: string,
  work: () => number | Promise<number>,
  kept?: string,
): Promise<void> {
  try {
    const code = await work();
    if (code !== 0) process.exitCode ??= code;
  } catch (error) {
    const { message, exitCode } = endingOf(error, of, kept);
    printRemarks([message]);
    process.exit(exitCode);
  }
}
