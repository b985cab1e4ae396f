import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { studyDisagreement } from './agreement.ts';
import { bringBackCut } from './hold.ts';
import { ResultsError } from './results-error.ts';
import { sealedText } from './seal.ts';
import { type Layout, readLayout } from './sealed-file.ts';
import { STUDY_VERSION, type Study, studySchema } from './study-schema.ts';

/** Name of the file in a study's folder. */
export const STUDY_FILE = 'study.json';

/** Whether a folder holds a study. */
export const isStudy = (place: string): boolean => existsSync(join(place, STUDY_FILE));

const LAYOUT: Layout<Study> = {
  version: STUDY_VERSION,
  schema: studySchema,
  disagreement: studyDisagreement,
  again: 'Run tubgap sweep, compare or place again.',
};

/** Reads and checks a study's folder. @throws ResultsError that says what is wrong and what to do */
export function readStudy(place: string): Study {
  bringBackCut(place);
  const file = join(place, STUDY_FILE);
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch (error) {
    throw new ResultsError(
      `${file}: no sweep or comparison to read (${(error as Error).message}). ${LAYOUT.again}`,
    );
  }
  return readLayout(file, text, LAYOUT);
}

/** A study as the text of its file: the same study gives the same bytes. */
export const studyText = (study: Study): string => sealedText(studySchema.parse(study));
