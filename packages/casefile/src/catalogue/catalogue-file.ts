import type { Problem } from '../issue.ts';
import type { Catalogue, CatalogueRow } from './catalogue.ts';

/** Why the path of a catalogue, or of another file, is refused: it must not lead out of the case's folder. */
export function pathProblem(path: string, what = 'a catalogue', example = 'tyres.csv'): Problem | undefined {
  const outside = path.split(/[/\\]/).includes('..') || /^([/\\]|[a-z]:)/i.test(path) || path.includes('\0');
  if (!outside) return undefined;
  const reason = `${what} must lie in the case file's folder or below it`;
  return { code: 'file', reason, hint: `Put it there and write its name, such as ${example}` };
}

/** The file's own name, without the folders. */
export function lastPart(file: string): string {
  return file.slice(1 + Math.max(file.lastIndexOf('/'), file.lastIndexOf('\\')));
}

/** The folders in front of the file's own name, with the stroke that ends them; empty when there are none. */
export function folderOf(file: string): string {
  return file.slice(0, file.length - lastPart(file).length);
}

/**
 * Finds and reads the catalogue that a case names.
 * @param path  as written in the case; anything but text was reported already and gives undefined
 * @param caseFile  what issues call the case file; the catalogue is named in the same folder
 */
export function openCatalogue<Row extends CatalogueRow>(
  path: unknown,
  caseFile: string,
  load: (relativePath: string) => string | undefined,
  read: (file: string, text: string) => Catalogue<Row>,
): Catalogue<Row> | { problem: Problem } | undefined {
  if (typeof path !== 'string' || path === '') return undefined;
  const problem = pathProblem(path);
  if (problem) return { problem };
  const text = load(path);
  if (text === undefined) {
    return { problem: { code: 'file', reason: "there is no such file in the case file's folder" } };
  }
  return read(folderOf(caseFile) + path, text);
}
