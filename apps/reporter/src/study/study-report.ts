import type { Study } from '@tubgap/results';
import { type Block, tableFiles } from '@tubgap/wording';
import { classesTable, classesText } from './classes-report.ts';
import { gridFigures, tornadoFigure } from './grid-figures.ts';
import { optimumFigure } from './optimum-figure.ts';
import { optimumWords } from './optimum-report.ts';
import { optimumTable } from './optimum-tables.ts';
import { placeFigure, placeTable, placeWords } from './places-report.ts';
import { pointsFigures } from './points-figures.ts';
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
        ...pointsFigures(study),
      };
    case 'setups':
      return tableFiles({ 'setups.csv': setupsTable(study) });
    case 'classes':
      return tableFiles({ 'classes.csv': classesTable(study) });
    case 'places':
      return { ...(await tableFiles({ 'place.csv': placeTable(study) })), 'place.svg': placeFigure(study) };
    case 'optimum':
      return {
        ...(await tableFiles({ 'optimum.csv': optimumTable(study) })),
        'optimum.svg': optimumFigure(study),
      };
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
    case 'optimum':
      return optimumWords(study);
  }
}
