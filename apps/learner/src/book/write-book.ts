import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { BOOK_NAME_WORDS, type BookFile, bookFileText, isBookName } from '@tubgap/casefile';
import { BAD_INPUT, stop } from '@tubgap/casefile/command-line';
import { textOf } from '@tubgap/casefile/node';
import { DiskRefused, lockSoon, makeFolder, writeFileWhole } from '@tubgap/results';
import { BOOK_FILE, CARS } from './read-book.ts';

/** How long somebody who writes in the same book is waited for, ms. */
const PATIENCE = 30_000;
/** Ends the names of what is being written: a reader passes them over, the next writer takes them away. */
const WRITING = '.writing';

/** What a killed process has left half written. */
function sweep(folder: string): void {
  const place = join(folder, CARS);
  if (!existsSync(place)) return;
  for (const name of readdirSync(place)) {
    if (name.startsWith('.') && name.endsWith(WRITING))
      rmSync(join(place, name), { recursive: true, force: true });
  }
}

/** Does some writing in a book that nobody else writes in meanwhile. @throws DiskRefused when the disk takes no more */
async function whileHeld(folder: string, work: () => void): Promise<void> {
  const whole = resolve(folder);
  const lock = await lockSoon(dirname(whole), basename(whole), PATIENCE);
  try {
    sweep(folder);
    work();
  } catch (error) {
    const { code, syscall } = error as NodeJS.ErrnoException;
    if (code === undefined || syscall === undefined) throw error;
    throw new DiskRefused(
      `${folder}: could not be written (${code}). The book is as it was. Free some space, and run again.`,
    );
  } finally {
    lock.free();
  }
}

/** Refuses a name that no folder of a book can have. @throws Stop */
export function requireBookName(what: string, name: string): void {
  if (!isBookName(name)) {
    stop(`${what}: read "${name}"; a name holds ${BOOK_NAME_WORDS}. Nothing was written.`, BAD_INPUT);
  }
}

/** Begins a book in a folder that holds none. @throws Stop, ResultsError */
export async function newBook(folder: string, book: Omit<BookFile, 'format' | 'version'>): Promise<void> {
  requireBookName('--name', book.name);
  await whileHeld(folder, () => {
    const place = join(folder, BOOK_FILE);
    if (existsSync(place)) stop(`${place}: there is a book already. Nothing was written.`, BAD_INPUT);
    makeFolder(join(folder, CARS));
    writeFileWhole(place, bookFileText(book));
  });
}

/** Puts a car's files into a book, all of them or none. @param files  by their paths in the car's folder @throws Stop, ResultsError */
export async function writeCar(
  folder: string,
  name: string,
  files: Readonly<Record<string, string | Uint8Array>>,
): Promise<void> {
  await whileHeld(folder, () => {
    const place = join(folder, CARS, name);
    if (existsSync(place)) {
      stop(
        `${place}: this car is in the book already. Enter what was seen of it (tubgap book enter), or give --name. Nothing was written.`,
        BAD_INPUT,
      );
    }
    makeFolder(join(folder, CARS));
    const writing = join(folder, CARS, `.${name}.${process.pid}${WRITING}`);
    try {
      mkdirSync(writing);
      for (const [path, content] of Object.entries(files)) {
        makeFolder(dirname(join(writing, path)));
        writeFileSync(join(writing, path), content, { flush: true });
      }
      renameSync(writing, place);
    } catch (error) {
      rmSync(writing, { recursive: true, force: true });
      throw error;
    }
  });
}

/**
 * Changes a file of a car by what it holds when nobody else writes there: what two add at once is both in it.
 * @param change  gives the new text of the old one; undefined: there is none yet
 * @throws Stop, ResultsError
 */
export async function changeCarFile(
  folder: string,
  car: string,
  file: string,
  change: (text: string | undefined) => string,
): Promise<void> {
  await whileHeld(folder, () => {
    const place = join(folder, CARS, car, file);
    writeFileWhole(place, change(existsSync(place) ? textOf(readFileSync(place)) : undefined));
  });
}
