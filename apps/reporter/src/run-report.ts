import type { CaseUnits } from '@tubgap/casefile';
import { DONE, printJson, printRemarks } from '@tubgap/casefile/command-line';
import { holdFolder, isStudy, NoPick, ResultsError, readResults, writeInto } from '@tubgap/results';
import { tableFiles } from '@tubgap/wording';
import { printed, terminal } from '@tubgap/wording/terminal';
import { toldIn } from './figures-of.ts';
import { type YearCar, yearSum, yearTable } from './overview/year.ts';
import { yearPage } from './overview/year-page.ts';
import { yearText } from './overview/year-text.ts';
import { printResults } from './print-results.ts';
import { revisionJson, revisionText } from './revision/revision.ts';

/** Tells finished results again. @returns exit code @throws ResultsError */
export async function runReport(place: string, json: boolean, units?: CaseUnits): Promise<number> {
  const { remarks, add, free } = holdFolder(place);
  try {
    printRemarks(remarks);
    const papers = printResults(place, json, { units });
    printRemarks(add(await papers()));
    return DONE;
  } finally {
    free();
  }
}

/**
 * The picks among folders, and a line for each of the others: who names all folders of a place need not know which of them
 * hold a sweep. A folder that is not there, or cannot be trusted, is no such case.
 * @throws ResultsError for those, and when none holds a pick
 */
function readCars(
  folders: readonly string[],
  units: CaseUnits | undefined,
): { cars: YearCar[]; skipped: string[] } {
  const cars: YearCar[] = [];
  const skipped: string[] = [];
  for (const folder of folders) {
    try {
      cars.push({ folder, result: toldIn(readResults(folder), units) });
    } catch (error) {
      if (!(error instanceof NoPick)) throw error;
      skipped.push(`${folder}: left out, it holds no pick${isStudy(folder) ? ' but a study' : ''}.`);
    }
  }
  if (cars.length > 0) return { cars, skipped };
  const mend = 'None of these folders holds a pick. Run the cases first: tubgap pick CASE';
  throw new ResultsError([...skipped, mend].join('\n'));
}

/** Writes the overview of several cars and prints it. @param to  folder to write into @returns exit code @throws ResultsError */
export async function runYear(
  folders: readonly string[],
  to: string,
  json: boolean,
  units?: CaseUnits,
): Promise<number> {
  const { cars, skipped } = readCars(folders, units);
  printRemarks(skipped);
  const table = yearTable(cars);
  // The folder may hold other things: the dictionary has a name of its own there.
  const tables = await tableFiles({ 'shop-year.csv': table }, 'shop-year-columns.csv');
  const files = { ...tables, 'shop-year.html': yearPage(cars) };
  printRemarks(writeInto(to, { kind: 'year', asked: 'tubgap year' }, files));
  if (json) {
    const { columns, rows } = table;
    printJson({
      cars: rows.map((row) => Object.fromEntries(columns.map(({ name }, c) => [name, row[c]]))),
      sum: yearSum(cars),
    });
  } else process.stdout.write(printed(yearText(cars), terminal()));
  return DONE;
}

/** Prints what changed from one result to another. @returns exit code @throws ResultsError */
export function runRevision(before: string, after: string, json: boolean, units?: CaseUnits): number {
  const [old, now] = [toldIn(readResults(before), units), toldIn(readResults(after), units)];
  if (json) printJson(revisionJson(old, now));
  else process.stdout.write(printed(revisionText(old, now), terminal()));
  return DONE;
}
