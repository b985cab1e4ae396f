import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { resultDisagreement } from './agreement.ts';
import { RESULT_FILE } from './folder.ts';
import { bringBackCut } from './hold.ts';
import { NoPick, ResultsError } from './results-error.ts';
import { type Result, resultSchema } from './schema.ts';
import { RESULT_VERSION } from './schema-asked.ts';
import { sealedText } from './seal.ts';
import { type Layout, readLayout } from './sealed-file.ts';

const LAYOUT: Layout<Result> = {
  version: RESULT_VERSION,
  schema: resultSchema,
  disagreement: resultDisagreement,
  again: 'Run the case again.',
};

const isFolder = (place: string): boolean =>
  statSync(place, { throwIfNoEntry: false })?.isDirectory() ?? false;

/** Reads and checks a results folder. @throws ResultsError, NoPick for a folder without results of a pick, that says what is wrong and what to do */
export function readResults(place: string): Result {
  bringBackCut(place);
  const file = join(place, RESULT_FILE);
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch {
    const said = (near: string) =>
      `${file}: no result to read; ${near}. Run the case first: tubgap pick CASE`;
    if (!isFolder(place)) throw new ResultsError(said('there is no such folder'));
    throw new NoPick(said(`it holds ${readdirSync(place).slice(0, 5).join(', ') || 'nothing'}`));
  }
  return readLayout(file, text, LAYOUT);
}

/** A result as the text of its file: the same result gives the same bytes. */
export const resultText = (result: Result): string => sealedText(resultSchema.parse(result));
