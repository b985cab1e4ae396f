import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Case } from './case.ts';
import { issueText } from './issue.ts';
import { parseCase } from './parse-case.ts';
import type { Setting } from './text/setting.ts';

export { textOf } from './text/file-text.ts';

/**
 * A case from the disk: its values, its text and that of the files that it names, by their names, or lines that say
 * what is wrong.
 */
export type Opened =
  | { ok: true; source: Case; text: string; named: Readonly<Record<string, string>> }
  | { ok: false; lines: string[] };

/** Opens a case file and the catalogues beside it. `set` are values given in place of the file's. */
export function openCase(file: string, set: readonly Setting[] = []): Opened {
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    return { ok: false, lines: [`${file}: cannot be read (${code}). Give the path of a case file.`] };
  }
  const named: Record<string, string> = {};
  const load = (relative: string): string | undefined => {
    try {
      named[relative] = readFileSync(join(dirname(file), relative), 'utf8');
      return named[relative];
    } catch {
      return undefined;
    }
  };
  const read = parseCase({ file, text, load, set });
  return read.ok
    ? { ok: true, source: read.value, text, named }
    : { ok: false, lines: read.issues.map(issueText) };
}

/** Reads one `path=value` of a command line; undefined when it has no sign of equality. */
export function readSetting(words: string): Setting | undefined {
  const at = words.indexOf('=');
  if (at <= 0) return undefined;
  return { path: words.slice(0, at).trim(), value: words.slice(at + 1).trim() };
}
