import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Result } from '@tubgap/results';
import { type SheetTable, tableFiles } from '@tubgap/wording';
import { hardCheckTable } from './hard-points/hard-tables.ts';
import { decisionSvg } from './page/decision-picture.ts';
import { reportPage } from './page/report-page.ts';
import { buildSheet } from './sheets/build-sheet.ts';
import { checkSheet } from './sheets/check-sheet.ts';
import { envelopeTable } from './sheets/envelope-table.ts';
import { checkTable, tubCheckTable } from './sheets/gap-checks.ts';
import { templateFiles } from './template/templates.ts';

/** A file that is made from a result alone, for the bench or the office. */
interface Paper {
  file: string;
  /** What it is for, in one line of READ-ME.txt. */
  about: string;
  /** Undefined when the result has nothing to put on it: no template without a tub to build. */
  make: (result: Result) => Made | Promise<Made>;
}
type Made = string | Uint8Array | SheetTable | undefined;

const isTable = (made: Made): made is SheetTable => typeof made === 'object' && 'columns' in made;

/** Every paper but the templates, in the order in which READ-ME.txt lists them. */
const PAPERS: readonly Paper[] = [
  {
    file: 'report.html',
    about: 'the report: what to build, how sure that is, drawings, every input with its source',
    make: reportPage,
  },
  {
    file: 'decision.svg',
    about: 'the decision with its side view in one picture, to send or to hang up',
    make: decisionSvg,
  },
  {
    file: 'build-sheet.html',
    about: 'two pages for the bench: the drawing; set-out order, tolerances, material, room on the car',
    make: buildSheet,
  },
  {
    file: 'check-sheet.html',
    about: 'one page for tape and feeler: what to measure, what passes, what to look at after the first runs',
    make: checkSheet,
  },
  {
    file: 'check-sheet.csv',
    about: 'the blanks of the check sheet, to type the measures back into',
    make: (result) => (result.chosen === null ? undefined : checkTable(result)),
  },
  {
    file: 'check-tub.csv',
    about: 'the blanks of the tub’s own place, the same way: top and centre, left and right',
    make: tubCheckTable,
  },
  {
    file: 'check-hard-points.csv',
    about: 'the blanks of its hard points, the same way',
    make: (result) =>
      result.chosen === null || result.hardPoints.length === 0 ? undefined : hardCheckTable(result),
  },
  {
    file: 'envelope.csv',
    about: 'which tubs the car takes, which the tyres, and what would have to change',
    make: envelopeTable,
  },
];

const HEADING = 'Papers made from these results:';

/** The guide of the folder with the list of papers at its end, in place of an earlier one. */
function guideWith(guide: string, papers: readonly Paper[]): string {
  const width = Math.max(0, ...papers.map((paper) => paper.file.length)) + 2;
  const [before] = guide.split(`\n${HEADING}\n`);
  return [before, HEADING, ...papers.map((paper) => paper.file.padEnd(width) + paper.about), ''].join('\n');
}

/**
 * Every table and paper of a results folder, and its guide with the papers listed: name → text. The same result gives the
 * same bytes.
 * @param tables  those that are no papers
 */
export async function paperFiles(
  place: string,
  result: Result,
  tables: Readonly<Record<string, SheetTable>>,
): Promise<Record<string, string | Uint8Array>> {
  const files: Record<string, string | Uint8Array> = {};
  const all = { ...tables };
  const written: Paper[] = [];
  for (const paper of [...PAPERS, ...templateFiles(result)]) {
    const made = await paper.make(result);
    if (made === undefined) continue;
    if (isTable(made)) all[paper.file] = made;
    else files[paper.file] = made;
    written.push(paper);
  }
  const guide = join(place, 'READ-ME.txt');
  files['READ-ME.txt'] = guideWith(existsSync(guide) ? readFileSync(guide, 'utf8') : '', written);
  return { ...(await tableFiles(all)), ...files };
}
