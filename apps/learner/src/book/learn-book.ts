import type { Origin } from '@tubgap/evidence';
import { elsewhere } from '../elsewhere.ts';
import { type PlainCar, plainCars } from './book-cars.ts';
import type { ConductorTask } from './book-conductor.ts';
import type { FoundBook } from './finish-book.ts';
import type { Book } from './read-book.ts';

const isSeen = ({ readings }: PlainCar): boolean => {
  const { checks: _, ...taught } = readings;
  return Object.values(taught).some((list) => list.length > 0);
};

/**
 * Learns from all cars of a book at once, in threads. The same book and seed give the same, whatever their number.
 * @returns undefined where no car has a reading
 */
export async function learnFromBook(
  book: Book,
  options: { seed: number; workers: number; madeBy: string },
): Promise<FoundBook | undefined> {
  const cars = plainCars(book).filter(isSeen);
  if (cars.length === 0) return undefined;
  const origins: Record<string, readonly Origin[]> = Object.fromEntries(
    book.cars.map(({ name, measured }) => [name, measured.origins]),
  );
  const task: ConductorTask = { cars, origins, ...options };
  return elsewhere<FoundBook>(new URL('./book-conductor.js', import.meta.url), task);
}
