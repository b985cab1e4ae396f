import { learnedText, shopPriorsText } from '@tubgap/casefile';
import {
  BAD_INPUT,
  DONE,
  printJson,
  printRemarks,
  RESULTS_FOLDER,
  stop,
} from '@tubgap/casefile/command-line';
import { holdResults } from '@tubgap/results';
import { BLANK, heading, line, paragraph, rowsOf, strongRow, tableFiles } from '@tubgap/wording';
import { printed, terminal } from '@tubgap/wording/terminal';
import { MADE_BY } from '../made-by.ts';
import { bookPage } from './book-page.ts';
import {
  carsSheet,
  commonSheet,
  conflictSheet,
  dueSheet,
  forecastSheet,
  growthSheet,
  reliabilitySheet,
  teachingSheet,
  tyresSheet,
} from './book-tables.ts';
import { type Due, dueIn } from './due.ts';
import type { FoundBook } from './finish-book.ts';
import { foundGroups, leadWords } from './found-words.ts';
import { learnFromBook } from './learn-book.ts';
import { PRIORS_FILE, priorsFile } from './priors-file.ts';
import { type Book, readBook } from './read-book.ts';

const SEED = 1;

const GUIDE = `What the cars of a shop's book taught.

shop-priors.yaml    for a new car: copy it into the folder of its case and write into the case: book: shop-priors.yaml
learned/…           for a car of the book: copy its file beside its case as learned.yaml and write: learned: learned.yaml
book.html           growth of each tyre model, cars that stand apart, what was foretold and what came, what is due
cars.csv            every car: what was seen of it, how the others foretell it, whether its tyre stands apart
tyres.csv           what is believed of each tyre model, input by input
in-common.csv       what cars of the shop, tubs of its builder and readings of its tape have in common
growth.csv          growth by speed of each model with its band, before and after
forecasts.csv       every entry of runs: chance of a mark from the other cars, and whether there was one
reliability.csv     forecasts of about the same chance together, and how many came true
measure-next.csv    what one more measurement would teach of the next car's height, and of how a model's tyres grow
conflicts.csv       readings that sit badly with their case or with all else that is known of the car
due.csv             what is due, car by car
columns.csv         what every column of these tables means, with its unit
written.json        what this program wrote here; what you change of it is kept

What a builder's tubs have in common is taken over where the case says who sets its tub out, as book.yaml does: builder: …
What a tape reads too much is told in shop-priors.yaml and enters no case; the book takes it off what was read with it.
A case names one of the two, never both: what was learned of a car of the book holds what the others taught already.
Where shop-priors.yaml is missing, nothing is offered: book.html says why.
The same book and seed give the same files.

Tyre contact at speed can kill. The sanctioning body's rules, the tyre maker's limits and a qualified chassis builder
come first.
`;

/** The files of what a book found, by name. Priors that are not to be believed are not offered. */
async function bookFiles(book: Book, found: FoundBook, due: readonly Due[]): Promise<Record<string, string>> {
  const learned = found.learned.map(({ car, file }) => [`learned/${car}.yaml`, learnedText(file)]);
  return {
    ...(found.priors.settled
      ? { [PRIORS_FILE]: shopPriorsText(priorsFile(book, found.priors, MADE_BY)) }
      : {}),
    ...Object.fromEntries(learned),
    'book.html': bookPage(book, found, due),
    ...(await tableFiles({
      'cars.csv': carsSheet(book, found),
      'tyres.csv': tyresSheet(found),
      'in-common.csv': commonSheet(found),
      'growth.csv': growthSheet(found),
      'forecasts.csv': forecastSheet(found),
      'reliability.csv': reliabilitySheet(found),
      'measure-next.csv': teachingSheet(found),
      'conflicts.csv': conflictSheet(found),
      'due.csv': dueSheet(due),
    })),
    'READ-ME.txt': GUIDE,
  };
}

/** Learns from a book, writes and prints what it found. @returns exit code @throws Stop, ResultsError, RangeError */
export async function runLearnBook(
  folder: string,
  {
    results = RESULTS_FOLDER,
    seed = SEED,
    workers,
    json,
  }: { results?: string; seed?: number; workers: number; json?: true | undefined },
): Promise<number> {
  const book = readBook(folder);
  const hold = holdResults(results, `${book.book.name}-book`, { kind: 'book' });
  try {
    printRemarks(hold.remarks);
    const found = await learnFromBook(book, { seed, workers, madeBy: MADE_BY });
    if (found === undefined) {
      return stop(
        `${folder}: no car of the book has a reading, so there is nothing to learn from. Add measurements or enter runs: tubgap book enter. ${book.unreadable.map(({ car, why }) => `${car}: ${why}.`).join(' ')}`,
        BAD_INPUT,
      );
    }
    const due = dueIn(book);
    printRemarks(hold.write(await bookFiles(book, found, due), `tubgap book learn ${folder}`));
    if (json) printJson({ book: book.book.name, ...found, due, place: hold.place });
    else
      process.stdout.write(
        printed(
          [
            ...leadWords(book, found).map(({ label, text }) => strongRow(label, text)),
            BLANK,
            heading(`  ${book.book.name}${book.book.invented ? ' [an invented shop]' : ''}`),
            BLANK,
            ...foundGroups(book, found, due).flatMap(({ label, texts }) =>
              rowsOf(texts.map((text, i) => ({ label: i === 0 ? label : '', text }))),
            ),
            BLANK,
            paragraph(
              "Tyre contact at speed can kill. What other cars taught is no measurement of this one; the sanctioning body's rules, the tyre maker's limits and a qualified chassis builder come first.",
            ),
            line(`  Written to ${hold.place}`),
          ],
          terminal(),
        ),
      );
    return found.priors.settled ? DONE : BAD_INPUT;
  } finally {
    hold.free();
  }
}
