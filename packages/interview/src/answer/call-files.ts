import { type Case, issueText, parseCase } from '@tubgap/casefile';
import { commentedText } from '../commented-case.ts';
import type { InterviewedCase } from '../to-case.ts';

/** Name of the catalogue of the shop's tubs. */
export const TUBS_FILE = 'tubs.csv';
/** Name of the file of the shop's priors, where the case starts from them. */
export const BOOK_FILE = 'shop-priors.yaml';
/** Name of the file that a case from a call is saved as. */
export const CALL_FILE = 'from-a-call.yaml';

/** Texts of a case from a call by file name. */
export type CallFiles = Readonly<Record<string, string>>;

/**
 * The case of a call as files.
 * @param tubs  the shop's catalogue
 * @param names  of the tubs to judge; left out: all
 */
export function callFiles(interviewed: InterviewedCase, tubs: string, names?: readonly string[]): CallFiles {
  const { book } = interviewed;
  const document = {
    ...interviewed.document,
    ...(names && { tubs: names }),
    ...(book === undefined ? {} : { book: BOOK_FILE }),
  };
  return {
    [CALL_FILE]: commentedText({ ...interviewed, document }),
    [TUBS_FILE]: tubs,
    'tyres.csv': interviewed.tyres,
    ...(book === undefined ? {} : { [BOOK_FILE]: book }),
  };
}

/** What the case reader says against a call, with the row of the tubs' list where it is of that. */
export interface CallFault {
  /** From 0; undefined for a fault of anything else. */
  tub: number | undefined;
  words: string;
}

/** The case of some files as the command line reads it. */
export function readFiles(files: CallFiles): { source: Case } | { faults: CallFault[] } {
  const read = parseCase({ file: CALL_FILE, text: files[CALL_FILE]!, load: (path) => files[path] });
  if (read.ok) return { source: read.value };
  const errors = read.issues.filter(({ severity }) => severity === 'error');
  return {
    faults: errors.map((issue): CallFault => {
      if (issue.file !== TUBS_FILE || issue.line === undefined)
        return { tub: undefined, words: issueText(issue) };
      // A remark may stand before the head.
      const lines = files[TUBS_FILE]!.split('\n').slice(0, issue.line - 1);
      const row = lines.filter((line) => line.trim() !== '' && !line.startsWith('#')).length - 1;
      return { tub: row < 0 ? undefined : row, words: `${issue.path}: ${issue.message}` };
    }),
  };
}
