import { harmlessLines } from '@tubgap/units';
import type { Issue } from '../issue.ts';
import { BAD_INPUT, FAULT } from './exit-codes.ts';

/** How a command ends: what is said, and its exit code. Errors that carry their own `exitCode` are such an end. */
export interface Ending {
  message: string;
  exitCode: number;
  /** What is to be mended in files, each with its place, where that is known. */
  issues?: readonly Issue[];
}

/** Thrown where nothing comes of a command: its message says why. */
export class Stop extends Error implements Ending {
  readonly exitCode: number;
  readonly issues: readonly Issue[];

  constructor(message: string, exitCode: number, issues: readonly Issue[] = []) {
    super(message);
    this.exitCode = exitCode;
    this.issues = issues;
  }
}

/**
 * Ends a command: says why nothing comes of it.
 * @param issues  what is to be mended in files, for whoever asked for JSON
 * @throws Stop
 */
export function stop(message: string, exitCode: number, issues: readonly Issue[] = []): never {
  throw new Stop(message, exitCode, issues);
}

/** An end as one JSON document: what there is to mend, each with file, line, column, path and hint where they are known. */
export function endingJson({ message, exitCode, issues = [] }: Ending): string {
  const errors = issues.length > 0 ? issues : [{ severity: 'error', message: harmlessLines(message) }];
  return `${JSON.stringify({ exitCode, errors }, null, 2)}\n`;
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
 * @param about  what is to be said of files when this program has failed, a sentence; and whether an end is printed as JSON,
 *   where the figures would have been
 */
export async function conclude(
  of: string,
  work: () => number | Promise<number>,
  { kept, json }: { kept?: string; json?: unknown } = {},
): Promise<void> {
  try {
    const code = await work();
    if (code !== 0) process.exitCode ??= code;
  } catch (error) {
    const ending = endingOf(error, of, kept);
    if (json === true) process.stdout.write(endingJson(ending));
    else printRemarks([ending.message]);
    process.exit(ending.exitCode);
  }
}
