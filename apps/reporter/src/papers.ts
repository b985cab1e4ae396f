import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { addToResults, type Result } from '@tubgap/results';

/** A file that is made from a result alone, for the bench or the office. */
export interface Paper {
  file: string;
  /** What it is for, in one line of READ-ME.txt. */
  about: string;
  /** Undefined when the result has nothing to put on it: no template without a tub to build. */
  make: (result: Result) => Made | Promise<Made>;
}
type Made = string | Uint8Array | undefined;

/** Every paper, in the order in which READ-ME.txt lists them. */
const PAPERS: readonly Paper[] = [];

const HEADING = 'Papers made from these results:';

/** The guide of the folder with the list of papers at its end, in place of an earlier one. */
function guideWith(guide: string, papers: readonly Paper[]): string {
  const width = Math.max(0, ...papers.map((paper) => paper.file.length)) + 2;
  const [before] = guide.split(`\n${HEADING}\n`);
  return [before, HEADING, ...papers.map((paper) => paper.file.padEnd(width) + paper.about), ''].join('\n');
}

/** Writes every paper into a results folder and lists them in its guide. The same result gives the same bytes. */
export async function writePapers(place: string, result: Result): Promise<void> {
  const files: Record<string, string | Uint8Array> = {};
  const written: Paper[] = [];
  for (const paper of PAPERS) {
    const made = await paper.make(result);
    if (made === undefined) continue;
    files[paper.file] = made;
    written.push(paper);
  }
  files['READ-ME.txt'] = guideWith(readFileSync(join(place, 'READ-ME.txt'), 'utf8'), written);
  addToResults(place, files);
}
