import { posix } from 'node:path';
import type { Setting } from '@tubgap/casefile';
import { type Opened, openCase } from '@tubgap/casefile/node';
import { buildOf, CASE_FILE } from '@tubgap/results';

/** Exit codes: 0 done, 1 this program's fault, 2 the input, 3 too few draws for the accepted risk, 4 a tub that is not within it. */
export const BAD_INPUT = 2;
export const TOO_FEW = 3;
export const NOT_WITHIN = 4;
/** This program and its build: what another build has worked out is another result. */
export const { madeBy: MADE_BY, build: BUILD } = buildOf(new URL('./main.js', import.meta.url));

/** Says why nothing comes of it, and ends. */
export function stop(message: string, code: number): never {
  process.stderr.write(`${message}\n`);
  process.exit(code);
}

/** Tells what became of files, a line each, beside what is printed. */
export const tell = (remarks: readonly string[]): void => {
  for (const remark of remarks) process.stderr.write(`${remark}\n`);
};

/** A case that was read, its files with it. */
export type ReadCase = Extract<Opened, { ok: true }>;

/**
 * Reads a case, or ends with all that is to mend in it. Its values name it as its copy in the results folder is named:
 * the same case gives the same bytes, whatever its file is called.
 */
export function readCase(file: string, set: readonly Setting[]): ReadCase {
  const opened = openCase(file, set, posix.basename(CASE_FILE));
  if (opened.ok) return opened;
  const { lines } = opened;
  const count = lines.length === 1 ? 'One thing' : `${lines.length} things`;
  stop([...lines, `${count} to mend; nothing was run.`].join('\n'), BAD_INPUT);
}
