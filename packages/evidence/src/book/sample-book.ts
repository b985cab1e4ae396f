import { type ChainEnd, type PooledDraws, pooledChain } from '@tubgap/statistics';
import type { BookCar } from './book-car.ts';
import { type BookModel, carsWithReadings, openBook } from './book-model.ts';
import { type PreparedCar, prepareCar } from './prepare-car.ts';

/** How long the sampler works. */
export interface BookEffort {
  seed: number;
  /** Sweeps of each chain that are thrown away, and those that count. */
  pilot: number;
  draws: number;
  /** A car whose evidence is left out, to see how the others foretell it. */
  without?: string;
}

export const BOOK_CHAINS = 4;

/**
 * Sweeps of each chain after which it is asked whether they agree: then they end. Of all so far the first quarter is thrown
 * away each time.
 */
export const BOOK_LOOKS = [200, 300, 400, 500, 600, 800, 1000, 1300, 1600, 2000] as const;
export const PILOT_SHARE = 0.25;

/** Without a car: only how well the rest foretell it is asked, to a tenth or so. */
export const WITHOUT_EFFORT = { pilot: 100, draws: 150 } as const;

/** What is believed of all cars of a book at once. */
export interface BookBelief extends BookModel {
  seed: number;
  chains: readonly PooledDraws[];
}

/**
 * One chain over all cars of the book: what a thread works out. The same seed and chain give the same bytes, whatever the
 * order of the cars.
 * @param prepared  by `prepareCar`, one a car with readings
 * @param from  where an earlier piece of the chain ended
 */
export const bookChain = (
  cars: readonly BookCar[],
  prepared: readonly PreparedCar[],
  { seed, pilot, draws, without }: BookEffort,
  chain: number,
  from?: ChainEnd,
): PooledDraws =>
  pooledChain(
    openBook(cars, prepared, seed, without).model,
    { seed: `book ${seed}`, pilot, draws },
    chain,
    from,
  );

/** Puts together what threads worked out. @param chains  in their order */
export const gatherBook = (
  cars: readonly BookCar[],
  prepared: readonly PreparedCar[],
  seed: number,
  chains: readonly PooledDraws[],
): BookBelief => ({ ...openBook(cars, prepared, seed), seed, chains });

/** Prepares every car and works out all chains, one after the other. A book without readings has no cars in it. */
export function sampleBook(cars: readonly BookCar[], effort: BookEffort): BookBelief {
  const prepared = carsWithReadings(cars).map((car) => prepareCar(car, effort.seed));
  const chains = Array.from({ length: BOOK_CHAINS }, (_, chain) => bookChain(cars, prepared, effort, chain));
  return gatherBook(cars, prepared, effort.seed, chains);
}
