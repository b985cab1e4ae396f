import { createHash } from 'node:crypto';
import type { BookFile, Case } from '@tubgap/casefile';
import { type BookCar, evidenceParts, type Readings, stretchesOf } from '@tubgap/evidence';
import { caseSetup } from '@tubgap/simulation';
import { countsOf } from './counts.ts';
import type { Book, BookEntry } from './read-book.ts';

/** A car of the book as plain values, as a thread may be given it: one set of tyres. */
export interface PlainCar {
  /** Of the car, or of what it was until its tyres were changed. */
  name: string;
  /** In the book. */
  car: string;
  /** Whether it is as the car stands now. */
  isNow: boolean;
  source: Case;
  readings: Readings;
  tyres: BookCar['tyres'];
  seen: NonNullable<BookCar['seen']>;
  builder?: string;
  tape?: string;
}

/** The cars of a book, each parted where a tyre was changed: another piece of rubber is another tyre of its model. */
export function plainCars({ book, cars }: Pick<Book, 'book' | 'cars'>): PlainCar[] {
  return cars.flatMap(({ name, source, readings, history }) =>
    stretchesOf(readings, history.tyreChanges).map((stretch): PlainCar => {
      const isNow = stretch.to === '';
      const { unmarkedRuns, marks } = countsOf({ readings: stretch.readings, history });
      return {
        name: isNow ? name : `${name} until ${stretch.to}`,
        car: name,
        isNow,
        source,
        readings: stretch.readings,
        tyres: Object.fromEntries(
          source.tyres.map(({ name, tyre }) => {
            const batch = stretch.batches[tyre];
            return [name, { model: tyre, ...(batch ? { batch } : {}) }];
          }),
        ),
        seen: { unmarkedRuns, marks },
        ...ofTheShop(book),
      };
    }),
  );
}

const ofTheShop = ({ builder, tape }: BookFile): Pick<PlainCar, 'builder' | 'tape'> => ({
  ...(builder === undefined ? {} : { builder }),
  ...(tape === undefined ? {} : { tape }),
});

/** The same with all that a sampler asks. */
export function openPlainCar({ name, source, readings, tyres, seen, builder, tape }: PlainCar): BookCar {
  const setup = caseSetup(source);
  return {
    name,
    source,
    setup,
    parts: evidenceParts(source, setup, readings, true),
    tyres,
    seen,
    ...(builder === undefined ? {} : { builder }),
    ...(tape === undefined ? {} : { tape }),
  };
}

/** Digest of every file that the cars of a book were read from, whatever order they come in. */
export function bookDigest(cars: readonly BookEntry[]): string {
  const lines = cars.flatMap(({ name, texts, measured }) => [
    ...Object.entries(texts).map(
      ([path, text]) => `${name}/${path} ${createHash('sha256').update(text).digest('hex')}`,
    ),
    ...measured.origins.map(({ file, sha256 }) => `${name}/measured/${file} ${sha256}`),
  ]);
  return createHash('sha256').update(lines.sort().join('\n')).digest('hex');
}
