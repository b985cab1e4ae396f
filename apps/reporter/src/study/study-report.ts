import type { Study } from '@tubgap/results';
import { type Block, tableFiles } from '@tubgap/wording';
import { classesTable, classesText } from './classes-report.ts';
import { gridFigures, tornadoFigure } from './grid-figures.ts';
import { placeFigure, placeTable, placeWords } from './places-report.ts';
import { setupsTable, setupsText } from './setups-report.ts';
import { sweepFigures } from './sweep-figures.ts';
import { summaryTable, sweepTable } from './sweep-tables.ts';
import { sweepText } from './sweep-text.ts';

/** The tables and pictures of a study: name → text. */
export async function studyFiles(study: Study): Promise<Record<string, string>> {
  switch (study.kind) {
    case 'sweep':
      return {
        ...(await tableFiles({ 'sweep.csv': sweepTable(study), 'summary.csv': summaryTable(study) })),
        ...sweepFigures(study),
        ...gridFigures(study),
        ...tornadoFigure(study),
      };
    case 'setups':
      return tableFiles({ 'setups.csv': setupsTable(study) });
    case 'classes':
      return tableFiles({ 'classes.csv': classesTable(study) });
    case 'places':
      return { ...(await tableFiles({ 'place.csv': placeTable(study) })), 'place.svg': placeFigure(study) };
  }
}

/** What a study found, in words. */
export function studyWords(study: Study): Block[] {
  switch (study.kind) {
    case 'sweep':
      return sweepText(study);
    case 'setups':
      return setupsText(study);
    case 'classes':
      return classesText(study);
    case 'places':
      return placeWords(study);
  }
}
