import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { BAD_INPUT, DONE, stop } from '@tubgap/casefile/command-line';
import { readCase } from '@tubgap/casefile/node';
import {
  enteredHistory,
  HISTORY_FILE,
  historyReadings,
  type NewEntry,
  placeText,
  readHistory,
} from '@tubgap/evidence';
import { printed, terminal } from '@tubgap/wording/terminal';
import { dueIn } from './due.ts';
import { listWords } from './list-words.ts';
import { CAR_CASE, carNames, MEASURED, readBook, readBookCar, readBookHead } from './read-book.ts';
import { changeCarFile, newBook, requireBookName, writeCar } from './write-book.ts';

const say = (...lines: string[]): void => {
  process.stdout.write(`${lines.join('\n')}\n`);
};

/** Begins a book. @returns exit code @throws Stop, ResultsError */
export async function runNew(
  folder: string,
  book: { name: string; invented?: true; builder?: string; tape?: string },
): Promise<number> {
  await newBook(folder, { invented: false, ...book });
  say(`Begun: ${folder}. Add a car to it: tubgap book add ${folder} mycar.yaml --measured measurements`);
  return DONE;
}

/** Tables of a folder of measurements, by their paths in the car's folder. */
function measuredFiles(folder: string): Record<string, Uint8Array> {
  if (!existsSync(folder))
    stop(`${folder}: there is no such folder of measurements. Nothing was written.`, BAD_INPUT);
  const tables = readdirSync(folder).filter((file) => file.toLowerCase().endsWith('.csv'));
  const history = tables.includes(HISTORY_FILE);
  return Object.fromEntries(
    tables.map((file) => [
      // A history that was kept beside the measurements is the car's own.
      history && file === HISTORY_FILE ? file : `${MEASURED}/${file}`,
      readFileSync(join(folder, file)),
    ]),
  );
}

/** Adds a car: its case, what that names, and what was measured. @returns exit code @throws Stop, ResultsError */
export async function runAdd(
  folder: string,
  file: string,
  { name, measured }: { name?: string | undefined; measured?: string | undefined },
): Promise<number> {
  readBookHead(folder);
  const { source, text, named } = readCase(file);
  const car = name ?? source.name;
  requireBookName('--name', car);
  await writeCar(folder, car, {
    [CAR_CASE]: text,
    ...named,
    ...(measured === undefined ? {} : measuredFiles(measured)),
  });
  const read = readBookCar(folder, car);
  const rejected = 'why' in read ? [] : read.rejected;
  say(
    `Added: ${car}${rejected.length === 0 ? '.' : `; ${rejected.length} of its rows are left out:`}`,
    ...rejected.slice(0, 8).map((one) => `  ${placeText(one)} ${one.reason}`),
    `Enter its runs: tubgap book enter ${folder} ${car} --entry runs --date 2026-05-02 --runs 48 --mark none …`,
  );
  return DONE;
}

/** Enters what happened to a car on a day. @returns exit code @throws Stop, ResultsError */
export async function runEnter(folder: string, car: string, entry: NewEntry): Promise<number> {
  readBookHead(folder);
  const read = carNames(folder).includes(car) ? readBookCar(folder, car) : undefined;
  if (read === undefined) {
    const names = carNames(folder).join(', ');
    return stop(
      `${folder}: there is no car ${car}; it has ${names === '' ? 'none yet' : names}. Nothing was written.`,
      BAD_INPUT,
    );
  }
  if ('why' in read) return stop(`${car}: ${read.why}. Mend that first; nothing was written.`, BAD_INPUT);
  await changeCarFile(folder, car, HISTORY_FILE, (text) => {
    const added = enteredHistory(
      text,
      entry,
      (history) => historyReadings(readHistory(history), read.source, read.measured.built).rejected,
    );
    if ('lacking' in added) {
      return stop(
        `${HISTORY_FILE} of ${car}: its first line lacks ${added.lacking.join(' and ')}. Add these columns to it. Nothing was written.`,
        BAD_INPUT,
      );
    }
    if ('problems' in added) {
      return stop(`This entry cannot be used: ${added.problems.join('; ')}. Nothing was written.`, BAD_INPUT);
    }
    return added.text;
  });
  say(`Entered for ${car}: ${entry.kind}, ${entry.date}. When all is entered: tubgap book learn ${folder}`);
  return DONE;
}

/** Prints a book's cars and what is due. @returns exit code @throws Stop */
export function runList(folder: string): number {
  const book = readBook(folder);
  process.stdout.write(printed(listWords(book, dueIn(book)), terminal()));
  return DONE;
}
