import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { bringBackCut } from './hold.ts';
import { ResultsError } from './results-error.ts';
import { STUDY_VERSION, type Study, studySchema } from './study-schema.ts';

/** Name of the file in a study's folder. */
export const STUDY_FILE = 'study.json';

/** Whether a folder holds a study. */
export const isStudy = (place: string): boolean => existsSync(join(place, STUDY_FILE));

/** Reads and checks a study's folder. @throws ResultsError that says what is wrong and what to do */
export function readStudy(place: string): Study {
  bringBackCut(place);
  const file = join(place, STUDY_FILE);
  const again = 'Run tubgap sweep, compare or place again.';
  let raw: unknown;
  try {
    raw = JSON.parse(readFileSync(file, 'utf8'));
  } catch (error) {
    throw new ResultsError(`${file}: no sweep or comparison to read (${(error as Error).message}). ${again}`);
  }
  const version = (raw as { version?: unknown } | null)?.version;
  if (version !== STUDY_VERSION) {
    throw new ResultsError(
      `${file}: written in layout ${String(version)}; this program reads layout ${STUDY_VERSION}. ${again}`,
    );
  }
  const parsed = studySchema.safeParse(raw);
  if (parsed.success) return parsed.data;
  const first = parsed.error.issues[0]!;
  throw new ResultsError(
    `${file}: ${first.path.join('.')}: ${first.message}. The file was changed by hand. ${again}`,
  );
}

/** A study as the text of its file: the same study gives the same bytes. */
export function studyText(study: Study): string {
  return `${JSON.stringify(studySchema.parse(study), null, 1)}\n`;
}
