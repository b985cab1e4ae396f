import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type BookFile, type Case, parseCase, readBookFile, untaughtText } from '@tubgap/casefile';
import { BAD_INPUT, stop } from '@tubgap/casefile/command-line';
import { textOf } from '@tubgap/casefile/node';
import {
  HISTORY_FILE,
  type HistoryReadings,
  historyReadings,
  type Readings,
  type Rejected,
  readHistory,
} from '@tubgap/evidence';
import { type CaseSetup, caseSetup } from '@tubgap/simulation';
import { type MeasuredFolder, noMeasuredFolder, readMeasuredFolder } from '../measured-folder.ts';

export const BOOK_FILE = 'book.yaml';
export const CARS = 'cars';
export const CAR_CASE = 'case.yaml';
export const MEASURED = 'measured';

/** A car of a book that can be read; what of it could not is listed. */
export interface BookEntry {
  name: string;
  /** As it was measured, nothing learned in it. */
  source: Case;
  setup: CaseSetup;
  measured: MeasuredFolder;
  history: HistoryReadings;
  /** Of measurements and history together. */
  readings: Readings;
  rejected: Rejected[];
  /** Text of every file that was read, by its path in the book. */
  texts: Readonly<Record<string, string>>;
}

/** A book with all cars that can be read, in the order of their names, and why the others cannot. */
export interface Book {
  folder: string;
  book: BookFile;
  cars: BookEntry[];
  unreadable: { car: string; why: string }[];
}

const codeOf = (error: unknown): string => (error as NodeJS.ErrnoException).code ?? (error as Error).message;

function textAt(place: string): string | undefined {
  try {
    return textOf(readFileSync(place));
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return undefined;
    throw error;
  }
}

/** A book's own file, or the end of the command. @throws Stop */
export function readBookHead(folder: string): BookFile {
  const place = join(folder, BOOK_FILE);
  let text: string | undefined;
  try {
    text = textAt(place);
  } catch (error) {
    return stop(`${place}: cannot be read (${codeOf(error)}).`, BAD_INPUT);
  }
  if (text === undefined) {
    return stop(
      `${folder}: there is no ${BOOK_FILE}. Begin a book with: tubgap book new ${folder}`,
      BAD_INPUT,
    );
  }
  const book = readBookFile(text);
  return 'problem' in book ? stop(`${place}: ${book.problem}. Nothing was done.`, BAD_INPUT) : book;
}

/** Names of the cars of a book; folders that begin with a point are cut writing. */
export function carNames(folder: string): string[] {
  const place = join(folder, CARS);
  if (!existsSync(place)) return [];
  return readdirSync(place, { withFileTypes: true })
    .filter((entry) => entry.isDirectory() && !entry.name.startsWith('.'))
    .map(({ name }) => name)
    .sort();
}

/** One car of a book, or why it cannot be read. A catalogue that it has not itself is the shop's. */
export function readBookCar(folder: string, name: string): BookEntry | { why: string } {
  const own = join(folder, CARS, name);
  const texts: Record<string, string> = {};
  const kept = (relative: string, text: string | undefined): string | undefined => {
    if (text !== undefined) texts[relative] = text;
    return text;
  };
  const ownText = (relative: string): string | undefined => kept(relative, textAt(join(own, relative)));
  const load = (relative: string): string | undefined =>
    ownText(relative) ?? kept(relative, textAt(join(folder, relative)));
  try {
    const text = ownText(CAR_CASE);
    if (text === undefined) return { why: `there is no ${CAR_CASE} in its folder` };
    const read = parseCase({ file: CAR_CASE, text: untaughtText(text), load });
    if (!read.ok) {
      const [first, ...more] = read.issues.filter(({ severity }) => severity === 'error');
      const others = more.length === 0 ? '' : ` (and ${more.length} more; tubgap pick names them)`;
      return {
        why: `${first!.file}${first!.line === undefined ? '' : `:${first!.line}`} ${first!.message}${others}`,
      };
    }
    const source = read.value;
    const setup = caseSetup(source);
    const measuredPlace = join(own, MEASURED);
    const measured = existsSync(measuredPlace)
      ? readMeasuredFolder(measuredPlace, source, setup)
      : noMeasuredFolder(measuredPlace);
    const history = historyReadings(
      readHistory(ownText(HISTORY_FILE) ?? HEADS_ALONE),
      source,
      measured.built,
    );
    return {
      name,
      source,
      setup,
      measured,
      history,
      readings: {
        ...measured.readings,
        runs: [...measured.readings.runs, ...history.runs],
        gaps: [...measured.readings.gaps, ...history.gaps],
      },
      rejected: [...measured.rejected, ...history.rejected],
      texts,
    };
  } catch (error) {
    return { why: `its files cannot be read (${codeOf(error)})` };
  }
}

/** A history without an entry. */
const HEADS_ALONE = 'date,entry\n';

/** Reads a book: a car that cannot be read is named, and the rest goes on. @throws Stop when it is no book */
export function readBook(folder: string): Book {
  const book = readBookHead(folder);
  const found: Book = { folder, book, cars: [], unreadable: [] };
  for (const name of carNames(folder)) {
    const car = readBookCar(folder, name);
    if ('why' in car) found.unreadable.push({ car: name, why: car.why });
    else found.cars.push(car);
  }
  return found;
}
