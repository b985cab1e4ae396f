import type { BookEntry } from './read-book.ts';

/** What a car, or a book, rests on. */
export interface Counts {
  /** Readings of tape, scale, gaps, logs and marks at a place. */
  readings: number;
  unmarkedRuns: number;
  marks: number;
  /** Newest day of all that has one; empty: nothing has. */
  newest: string;
}

const DAY = /^\d{4}-\d{2}-\d{2}/;

/** Counts what was seen of a car. Its check sheet is not counted: nothing is learned from what passes or fails. */
export function countsOf({ readings, history }: Pick<BookEntry, 'readings' | 'history'>): Counts {
  const { runs, checks: _, ...others } = readings;
  const days = [
    ...Object.values(readings).flat(),
    ...history.tyreChanges,
    { date: history.builtSince },
  ].flatMap(({ date }) => DAY.exec(date)?.[0] ?? []);
  return {
    readings: Object.values(others).reduce((sum, list) => sum + list.length, 0),
    unmarkedRuns: runs.filter(({ marked }) => !marked).reduce((sum, one) => sum + one.runs, 0),
    marks:
      runs.filter(({ marked }) => marked).length + readings.marks.filter(({ touched }) => touched).length,
    newest: days.sort().at(-1) ?? '',
  };
}

/** The same of all cars together. */
export function countsIn(cars: readonly BookEntry[]): Counts {
  const all = cars.map(countsOf);
  const sum = (key: 'readings' | 'unmarkedRuns' | 'marks'): number =>
    all.reduce((total, counts) => total + counts[key], 0);
  const newest =
    all
      .map((counts) => counts.newest)
      .sort()
      .at(-1) ?? '';
  return { readings: sum('readings'), unmarkedRuns: sum('unmarkedRuns'), marks: sum('marks'), newest };
}
