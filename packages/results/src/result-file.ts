import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { resultDisagreement } from './agreement.ts';
import { RESULT_FILE } from './folder.ts';
import { bringBackCut } from './hold.ts';
import { ResultsError } from './results-error.ts';
import { RESULT_VERSION, type Result, resultSchema } from './schema.ts';
import { sealedText } from './seal.ts';
import { type Layout, readLayout } from './sealed-file.ts';

const LAYOUT: Layout<Result> = {
  version: RESULT_VERSION,
  schema: resultSchema,
  disagreement: resultDisagreement,
  again: 'Run the case again.',
};

/** Reads and checks a results folder. @throws ResultsError that says what is wrong and what to do */
export function readResults(place: string): Result {
  bringBackCut(place);
  const file = join(place, RESULT_FILE);
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch {
    const near = existsSync(place)
      ? `it holds ${readdirSync(place).slice(0, 5).join(', ') || 'nothing'}`
      : 'there is no such folder';
    throw new ResultsError(`${file}: no result to read; ${near}. Run the case first: tubgap pick CASE`);
  }
  return readLayout(file, text, LAYOUT);
}

/** A result as the text of its file: the same result gives the same bytes. */
export const resultText = (result: Result): string => sealedText(resultSchema.parse(result));
