import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Case, issueLines, parseCase } from '@tubgap/casefile';
import { BAD_INPUT, stop } from '@tubgap/casefile/command-line';
import { commentedText, INVENTED_TUBS_TEXT, type InterviewedCase, withExisting } from '@tubgap/interview';
import { makeFolder, writeFileWhole } from '@tubgap/results';

const CASE = 'case.yaml';
const TUBS = 'tubs.csv';
const TYRES = 'tyres.csv';

/** A catalogue of tubs, and where it comes from; invented where it comes from nowhere. */
interface TubsList {
  text: string;
  file?: string;
}

/** The shop's tubs, or invented ones. @throws Stop */
export function tubsList(file: string | undefined): TubsList {
  if (file === undefined) return { text: INVENTED_TUBS_TEXT };
  try {
    return { text: readFileSync(file, 'utf8'), file };
  } catch (error) {
    return stop(
      `--tubs ${file}: it could not be read (${(error as NodeJS.ErrnoException).code}).`,
      BAD_INPUT,
    );
  }
}

/** Names of the files of a case that a folder has already. */
const standing = (folder: string): string[] =>
  [CASE, TYRES, TUBS].filter((name) => existsSync(join(folder, name)));

/** Ends the command where a folder has a case that is not to be replaced. @throws Stop */
export function refuseStanding(folder: string): void {
  const there = standing(folder);
  if (there.length === 0) return;
  stop(
    `${folder} has ${there.join(', ')} already, and nothing was written. Name another folder, or give --replace.`,
    BAD_INPUT,
  );
}

/** The folder itself, or the first of its name with a number behind it that has no case. */
export function freeFolder(folder: string): string {
  for (let i = 1; ; i++) {
    const name = i === 1 ? folder : `${folder}-${i}`;
    if (standing(name).length === 0) return name;
  }
}

/** A case that was written. */
export interface WrittenCase {
  file: string;
  names: readonly string[];
  /** As a pick will read it. */
  source: Case;
}

/**
 * Writes the case of a call with its catalogues, the case last: where it stands it stands whole.
 * @throws Stop when a case of them cannot be read, as with a fault in the catalogue; nothing is written then
 */
export function writeCase(folder: string, interviewed: InterviewedCase, tubs: TubsList): WrittenCase {
  const file = join(folder, CASE);
  const filesOf = (one: InterviewedCase): Readonly<Record<string, string>> => ({
    [TYRES]: one.tyres,
    [TUBS]: tubs.text,
    [CASE]: commentedText(one),
  });
  const readBack = (texts: Readonly<Record<string, string>>): Case => {
    const read = parseCase({ file, text: texts[CASE]!, load: (name) => texts[name] });
    if (read.ok) return read.value;
    const errors = read.issues.filter(({ severity }) => severity === 'error');
    const named = errors.map((issue) =>
      tubs.file !== undefined && issue.file === join(folder, TUBS) ? { ...issue, file: tubs.file } : issue,
    );
    return stop([...issueLines(named), 'Nothing was written.'].join('\n'), BAD_INPUT);
  };
  // How wide the tub in the car is follows from the list.
  const files = filesOf(withExisting(interviewed, readBack(filesOf(interviewed)).tubs));
  const source = readBack(files);
  makeFolder(folder);
  for (const [name, text] of Object.entries(files)) writeFileWhole(join(folder, name), text);
  return { file, names: Object.keys(files), source };
}
