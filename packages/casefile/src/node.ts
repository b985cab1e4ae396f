import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Case } from './case.ts';
import { stop } from './command-line/ending.ts';
import { BAD_INPUT } from './command-line/exit-codes.ts';
import { issueLines } from './issue.ts';
import { parseCase } from './parse-case.ts';
import type { Setting } from './text/setting.ts';

export { textOf } from './text/file-text.ts';

/** A case's values, or lines that say what is wrong. */
export type CaseRead = { ok: true; source: Case } | { ok: false; lines: string[] };

/** A case from the disk, or lines that say what is wrong. */
export type Opened =
  | {
      ok: true;
      source: Case;
      text: string;
      /** Text of the files that it names, by their names; what `again` needs beside them is added. */
      named: Readonly<Record<string, string>>;
      /** The same case with other settings: from what was read, whatever becomes of the files meanwhile. */
      again: (set: readonly Setting[]) => CaseRead;
    }
  | { ok: false; lines: string[] };

/**
 * Opens a case file and the catalogues beside it, each file read once.
 * @param set  values given in place of the file's
 * @param called  what the case's values call the file; left out: its own name
 */
export function openCase(file: string, set: readonly Setting[] = [], called?: string): Opened {
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    return { ok: false, lines: [`${file}: cannot be read (${code}). Give the path of a case file.`] };
  }
  const named: Record<string, string> = {};
  const missing = new Set<string>();
  const load = (relative: string): string | undefined => {
    if (Object.hasOwn(named, relative) || missing.has(relative)) return named[relative];
    try {
      named[relative] = readFileSync(join(dirname(file), relative), 'utf8');
    } catch {
      missing.add(relative);
    }
    return named[relative];
  };
  const again = (settings: readonly Setting[]): CaseRead => {
    const read = parseCase({ file, text, load, set: settings, ...(called !== undefined && { called }) });
    return read.ok ? { ok: true, source: read.value } : { ok: false, lines: issueLines(read.issues) };
  };
  const first = again(set);
  return first.ok ? { ...first, text, named, again } : first;
}

/** A case that was read, its files with it. */
export type ReadCase = Extract<Opened, { ok: true }>;

/**
 * Reads a case, or ends the command with all that is to mend in it.
 * @param called  what the case's values call the file; left out: its own name
 * @throws Stop
 */
export function readCase(file: string, set: readonly Setting[] = [], called?: string): ReadCase {
  const opened = openCase(file, set, called);
  if (opened.ok) return opened;
  const { lines } = opened;
  const count = lines.length === 1 ? 'One thing' : `${lines.length} things`;
  return stop([...lines, `${count} to mend; nothing was run.`].join('\n'), BAD_INPUT);
}
