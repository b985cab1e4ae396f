import { DONE, printRemarks } from '@tubgap/casefile/command-line';
import { holdFolder, readResults, writeInto } from '@tubgap/results';
import { csvText } from '@tubgap/wording';
import { yearTable } from './overview/year.ts';
import { yearPage } from './overview/year-page.ts';
import { yearText } from './overview/year-text.ts';
import { printResults } from './print-results.ts';
import { revisionText } from './revision/revision.ts';

/** Tells finished results again. @returns exit code @throws ResultsError */
export async function runReport(place: string, json: boolean): Promise<number> {
  const { remarks, add, free } = holdFolder(place);
  try {
    printRemarks(remarks);
    const papers = printResults(place, json);
    printRemarks(add(await papers()));
    return DONE;
  } finally {
    free();
  }
}

/** Writes the overview of several cars and prints it. @param to  folder to write into @returns exit code @throws ResultsError */
export async function runYear(folders: readonly string[], to: string): Promise<number> {
  const cars = folders.map((folder) => ({ folder, result: readResults(folder) }));
  const files = { 'shop-year.csv': await csvText(yearTable(cars)), 'shop-year.html': yearPage(cars) };
  printRemarks(writeInto(to, { kind: 'year', asked: 'tubgap year' }, files));
  process.stdout.write(yearText(cars));
  return DONE;
}

/** Prints what changed from one result to another. @returns exit code @throws ResultsError */
export function runRevision(before: string, after: string): number {
  process.stdout.write(revisionText(readResults(before), readResults(after)));
  return DONE;
}
