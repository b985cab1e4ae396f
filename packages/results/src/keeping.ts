import { mkdirSync, readFileSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { dirname, posix } from 'node:path';
import { digestOf } from './marker.ts';

/** What becomes of a file that somebody has changed, when this program has a text for its name. */
export type Keeping = 'as it is' | 'aside' | 'same';

/**
 * A changed file stays where it is while this program would write there what it wrote before; one that is to be written
 * otherwise is set aside under a name of its own.
 * @param there  digest of the file as it is
 * @param before  digest of what this program wrote there; undefined when it did not
 * @param next  digest of what it writes now
 */
export function keepingOf(there: string, before: string | undefined, next: string): Keeping {
  if (there === next) return 'same';
  return next === before ? 'as it is' : 'aside';
}

/** A name for a file that is set aside: 'check-sheet.changed.csv', then 'check-sheet.changed-2.csv'. */
export function asideName(name: string, isTaken: (name: string) => boolean): string {
  const { dir, name: stem, ext } = posix.parse(name);
  for (let i = 1; ; i++) {
    const aside = posix.join(dir, `${stem}.changed${i === 1 ? '' : `-${i}`}${ext}`);
    if (!isTaken(aside)) return aside;
  }
}

/** Copies a file with its times, safe on the disk when this ends. */
export function copyWhole(from: string, to: string): void {
  const { atime, mtime } = statSync(from);
  mkdirSync(dirname(to), { recursive: true });
  writeFileSync(to, readFileSync(from), { flush: true });
  utimesSync(to, atime, mtime);
}

/** Digest of a file as it is. */
export const fileDigest = (file: string): string => digestOf(readFileSync(file));

/** Said of files that somebody has changed and that stay in their place. */
export const keptWords = (place: string, names: readonly string[]): string[] =>
  names.length === 0
    ? []
    : [`${place}: changed since this program wrote it, and left as it is: ${names.join(', ')}.`];

/** Said of a file that was set aside. */
export const asideWords = (place: string, name: string, aside: string): string =>
  `${place}: ${name} was changed since this program wrote it; it is kept as ${aside}, for the new one is another.`;
