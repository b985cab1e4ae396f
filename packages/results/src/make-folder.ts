import { existsSync, mkdirSync, rmdirSync, statSync } from 'node:fs';
import { dirname, resolve } from 'node:path';

/**
 * Makes a folder with those that it lies in. Node's own recursive way does not end where a place says that a folder is
 * missing and lets none be made, as /proc does.
 * @returns the folders that were made, outermost first
 * @throws Error of the system when one cannot be made
 */
export function makeFolder(place: string): string[] {
  const missing: string[] = [];
  for (let at = resolve(place); !existsSync(at); at = dirname(at)) missing.unshift(at);
  return missing.filter((folder) => {
    try {
      mkdirSync(folder);
      return true;
    } catch (error) {
      if (statSync(folder, { throwIfNoEntry: false })?.isDirectory()) return false;
      throw error;
    }
  });
}

/** Takes folders away that hold nothing, innermost first. */
export function removeEmpty(folders: readonly string[]): void {
  for (const folder of folders.toReversed()) {
    try {
      rmdirSync(folder);
    } catch {
      return;
    }
  }
}
