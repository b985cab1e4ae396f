import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { bringBackCut } from './hold.ts';
import { ResultsError } from './results-error.ts';
import { RESULT_VERSION, type Result, resultSchema } from './schema.ts';

/** Names of the files in a results folder. */
export const RESULT_FILE = 'result.json';
/** The case as it was read, in a folder of its own with the files that it names. */
export const CASE_FOLDER = 'case';
export const CASE_FILE = `${CASE_FOLDER}/case.yaml`;

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
  let raw: unknown;
  try {
    raw = JSON.parse(text);
  } catch (error) {
    throw new ResultsError(
      `${file}: not readable as JSON (${(error as Error).message}). Run the case again.`,
    );
  }
  const version = (raw as { version?: unknown } | null)?.version;
  if (version !== RESULT_VERSION) {
    throw new ResultsError(
      `${file}: written in layout ${String(version)}; this program reads layout ${RESULT_VERSION}. Run the case again.`,
    );
  }
  const parsed = resultSchema.safeParse(raw);
  if (!parsed.success) {
    const first = parsed.error.issues[0]!;
    throw new ResultsError(
      `${file}: ${first.path.join('.')}: ${first.message}. The file was changed by hand; run the case again.`,
    );
  }
  return parsed.data;
}

/** A result as the text of its file: the same result gives the same bytes. */
export function resultText(result: Result): string {
  return `${JSON.stringify(resultSchema.parse(result), null, 1)}\n`;
}
