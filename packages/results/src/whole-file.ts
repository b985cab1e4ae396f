import { renameSync, rmSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { WRITING } from './standing.ts';

/** Writes a file whole or not at all: it gets its name only when it is on the disk. @throws Error of the system */
export function writeFileWhole(target: string, text: string | Uint8Array): void {
  const writing = join(dirname(target), `.${basename(target)}.${process.pid}${WRITING}`);
  try {
    writeFileSync(writing, text, { flush: true });
    renameSync(writing, target);
  } catch (error) {
    rmSync(writing, { force: true });
    throw error;
  }
}
