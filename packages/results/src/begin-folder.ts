import { existsSync, mkdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { makeFolder } from './make-folder.ts';
import { WRITING } from './standing.ts';

/**
 * Begins a folder that several processes fill: it gets its name whole, with its first files in it, and never that of one
 * which holds something, so that of several processes one begins it.
 * @param files  text by name
 * @throws Error of the system
 */
export function beginFolder(place: string, files: Readonly<Record<string, string>>): void {
  makeFolder(dirname(place));
  const own = `${place}.${process.pid}-${Math.random().toString(36).slice(2)}${WRITING}`;
  try {
    mkdirSync(own);
    for (const [name, text] of Object.entries(files)) {
      makeFolder(dirname(join(own, name)));
      writeFileSync(join(own, name), text, { flush: true });
    }
    renameSync(own, place);
  } catch (error) {
    rmSync(own, { recursive: true, force: true });
    if (!existsSync(place)) throw error;
  }
}
