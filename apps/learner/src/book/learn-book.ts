import { BOOK_CHAINS, BOOK_EFFORTS, type Origin, type PreparedCar } from '@tubgap/evidence';
import type { PooledDraws } from '@tubgap/statistics';
import { elsewhere } from '../elsewhere.ts';
import { type PlainCar, plainCars } from './book-cars.ts';
import type { BookTask } from './book-worker.ts';
import type { FoundBook } from './finish-book.ts';
import type { Book } from './read-book.ts';

const inThread = <Result>(task: BookTask): Promise<Result> =>
  elsewhere<Result>(new URL('./book-worker.js', import.meta.url), task);

/** Does some work at a time, and keeps the answers in the order of the tasks, however long each takes. */
async function atOnce<Task, Result>(
  tasks: readonly Task[],
  workers: number,
  work: (task: Task) => Promise<Result>,
): Promise<Result[]> {
  const results = new Array<Result>(tasks.length);
  let next = 0;
  const worker = async (): Promise<void> => {
    while (next < tasks.length) {
      const index = next++;
      results[index] = await work(tasks[index]!);
    }
  };
  await Promise.all(Array.from({ length: Math.min(workers, tasks.length) }, worker));
  return results;
}

/** Every so many-th car: each thread opens its cars once. */
const dealt = (cars: readonly PlainCar[], hands: number): PlainCar[][] =>
  Array.from({ length: Math.min(hands, cars.length) }, (_, hand) =>
    cars.filter((__, i) => i % hands === hand),
  );

const isSeen = ({ readings }: PlainCar): boolean => {
  const { checks: _, ...taught } = readings;
  return Object.values(taught).some((list) => list.length > 0);
};

/**
 * Learns from all cars of a book at once, in threads. The same book and seed give the same, whatever their number.
 * @returns undefined where no car has a reading
 */
export async function learnBook(
  book: Book,
  { seed, workers, madeBy }: { seed: number; workers: number; madeBy: string },
): Promise<FoundBook | undefined> {
  const cars = plainCars(book).filter(isSeen);
  if (cars.length === 0) return undefined;
  const hands = dealt(cars, workers);
  const prepared = (
    await atOnce(hands, workers, (own) => inThread<PreparedCar[]>({ kind: 'prepare', cars: own, seed }))
  ).flat();
  const origins: Record<string, readonly Origin[]> = Object.fromEntries(
    book.cars.map(({ name, measured }) => [name, measured.origins]),
  );
  let found: FoundBook | undefined;
  for (const effort of BOOK_EFFORTS) {
    const chains = await atOnce(
      Array.from({ length: BOOK_CHAINS }, (_, chain) => chain),
      workers,
      (chain) => inThread<PooledDraws>({ kind: 'chain', cars, prepared, effort: { seed, ...effort }, chain }),
    );
    found = await inThread<FoundBook>({ kind: 'finish', cars, prepared, chains, seed, madeBy, origins });
    if (found.priors.settled) break;
  }
  return found;
}
