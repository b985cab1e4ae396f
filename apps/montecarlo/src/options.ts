import { posix } from 'node:path';
import type { Setting } from '@tubgap/casefile';
import { type ReadCase, readCase as readNamedCase } from '@tubgap/casefile/node';
import { buildOf, CASE_FILE } from '@tubgap/results';

/** This program and its build: what another build has worked out is another result. */
export const { madeBy: MADE_BY, build: BUILD } = buildOf(new URL('./main.js', import.meta.url));

export type { ReadCase };

/**
 * Reads a case, or ends with all that is to mend in it. Its values name it as its copy in the results folder is named:
 * the same case gives the same bytes, whatever its file is called.
 * @throws Stop
 */
export const readCase = (file: string, set: readonly Setting[]): ReadCase =>
  readNamedCase(file, set, posix.basename(CASE_FILE));
