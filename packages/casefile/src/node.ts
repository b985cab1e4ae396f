import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { wholeText } from '@tubgap/units';
import type { Case, CaseTyre } from './case.ts';
import { stop } from './command-line/ending.ts';
import { BAD_INPUT } from './command-line/exit-codes.ts';
import { type Issue, issueAt, issueLines, type Problem } from './issue.ts';
import { parseCase } from './parse-case.ts';
import { standIns } from './stand-ins.ts';
import type { Setting } from './text/setting.ts';

export { textOf } from './text/file-text.ts';

/** Why there is no case: every line that is told of it, and how many things there are to mend; a warning is none. */
interface Unread {
  ok: false;
  lines: string[];
  /** What those lines say; none where the file could not be read at all. */
  issues: readonly Issue[];
  faults: number;
}

/** A case's values, or lines that say what is wrong. */
export type CaseRead = { ok: true; source: Case } | Unread;

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
      /** The other tyres of its catalogue in the place of one of its own. */
      standIns: (tyre: string) => CaseTyre[];
    }
  | Unread;

/** The name under which a case comes from standard input; what it names is looked for in the folder that one is in. */
const STANDARD_INPUT = '-';
const placeName = (file: string): string => (file === STANDARD_INPUT ? 'standard input' : file);

/**
 * Opens a case file and the catalogues beside it, each file read once.
 * @param set  values given in place of the file's
 * @param called  what the case's values call the file; left out: its own name
 */
export function openCase(file: string, set: readonly Setting[] = [], called?: string): Opened {
  let text: string;
  try {
    text = readFileSync(file === STANDARD_INPUT ? 0 : file, 'utf8');
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    const problem: Problem = {
      code: 'file',
      reason: `cannot be read (${code}). Give the path of a case file.`,
    };
    return {
      ok: false,
      lines: [`${placeName(file)}: ${problem.reason}`],
      issues: [issueAt({ file: placeName(file), path: '' }, problem)],
      faults: 1,
    };
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
  const own = { file: placeName(file), text, load, ...(called !== undefined && { called }) };
  const again = (settings: readonly Setting[]): CaseRead => {
    const read = parseCase({ ...own, set: settings });
    if (read.ok) return { ok: true, source: read.value };
    const faults = read.issues.filter(({ severity }) => severity === 'error').length;
    return { ok: false, lines: issueLines(read.issues), issues: read.issues, faults };
  };
  const first = again(set);
  return first.ok
    ? { ...first, text, named, again, standIns: (tyre) => standIns({ ...own, set }, tyre) }
    : first;
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
  const { lines, faults, issues } = opened;
  const count = faults === 1 ? 'One thing' : `${wholeText(faults)} things`;
  return stop([...lines, `${count} to mend; nothing was run.`].join('\n'), BAD_INPUT, issues);
}
