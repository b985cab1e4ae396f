import type { ChainEnd, PooledDraws } from '@tubgap/statistics';
import { type Conflict, findConflicts, impossibleRubs } from '../conflicts.ts';
import { spaceOf } from '../posterior.ts';
import { thinned } from '../thinned.ts';
import type { BookCar } from './book-car.ts';
import { agreed, chainsOf } from './book-chains.ts';
import { carsWithReadings } from './book-model.ts';
import { doubtfulCars, foretoldWithout } from './leave-one-out.ts';
import { bookSpace, type PreparedCar, prepareCar } from './prepare-car.ts';
import { type BookBelief, type BookEffort, bookChain, WITHOUT_EFFORT } from './sample-book.ts';
import { type ShopPriors, shopPriors } from './shop-priors.ts';

/** A piece of the work, in plain data: any thread that has the book's cars can do it. */
export type BookTask =
  | { kind: 'prepare'; car: string; seed: number }
  | {
      kind: 'chain';
      chain: number;
      effort: BookEffort;
      prepared: readonly PreparedCar[];
      /** Where its piece before ended. */
      from?: ChainEnd;
    }
  /** `points` are draws of the car's own coordinates, as the book believes of it. */
  | { kind: 'conflicts'; car: string; seed: number; runCount: number; points: Float64Array[] };

/** What comes of it, in plain data too. */
export type BookTaskResult = { prepared: PreparedCar } | { chain: PooledDraws } | { conflicts: Conflict[] };

/** Does some pieces of the work at once and gives back their results in their order. */
export type Perform = (tasks: readonly BookTask[]) => Promise<BookTaskResult[]> | BookTaskResult[];

/** Does one piece of the work. @throws RangeError for a car that the book does not have */
export function performBookTask(cars: readonly BookCar[], task: BookTask): BookTaskResult {
  if (task.kind === 'chain') {
    const own = cars.filter(({ name }) => task.prepared.some((one) => one.name === name));
    return { chain: bookChain(own, task.prepared, task.effort, task.chain, task.from) };
  }
  const car = cars.find(({ name }) => name === task.car);
  if (car === undefined) throw new RangeError(`the book has no car ${task.car}.`);
  if (task.kind === 'conflicts') {
    const { seed, runCount, points } = task;
    const space = bookSpace(car, seed, runCount);
    return { conflicts: findConflicts({ space, parts: car.parts, points }, seed) };
  }
  return { prepared: prepareCar(car, task.seed) };
}

/** What a shop's book teaches. */
export interface BookLearned {
  belief: BookBelief;
  /** Nothing of it is to be offered unless it is settled. */
  priors: ShopPriors;
  /** Cars with marks that nothing in their case can have made: they are no part of this. */
  leftOut: { car: string; conflicts: Conflict[] }[];
  /** Readings of the others that sit badly with their case or with all else that is known of the car, the other cars too. */
  conflicts: { car: string; conflicts: Conflict[] }[];
}

/** Draws of a car by which its readings are judged. */
const JUDGED_BY = 800;

/** Asks of every car which of its readings sit badly with what the book believes of it. */
const conflictTasks = ({ cars, chains, seed }: BookBelief): Extract<BookTask, { kind: 'conflicts' }>[] =>
  cars.map(({ car, space, prepared }, u) => {
    const { dimension } = space;
    const all = chains.flatMap(({ units, draws }) =>
      Array.from({ length: draws }, (_, i) => units[u]!.slice(i * dimension, (i + 1) * dimension)),
    );
    const points = thinned(all, JUDGED_BY);
    return { kind: 'conflicts', car: car.name, seed, runCount: prepared.runCount, points };
  });

/**
 * Learns from all cars of a book together, longer when the chains do not agree at first. The same cars and seed give the
 * same result, in whatever order they come and whoever performs the tasks.
 * @param perform  does some tasks at once and gives back their results in their order; one after the other when left out
 */
export async function learnBook(
  cars: readonly BookCar[],
  seed: number,
  perform: Perform = (tasks) => tasks.map((task) => performBookTask(cars, task)),
): Promise<BookLearned> {
  const leftOut = carsWithReadings(cars).flatMap((car) => {
    const conflicts = impossibleRubs(spaceOf(car.setup, car.parts, seed), car.parts, seed);
    return conflicts.length === 0 ? [] : [{ car: car.name, conflicts }];
  });
  const sound = carsWithReadings(cars).filter(({ name }) => leftOut.every(({ car }) => car !== name));
  const ready = await perform(sound.map(({ name }) => ({ kind: 'prepare', car: name, seed })));
  const prepared = ready.flatMap((result) => ('prepared' in result ? [result.prepared] : []));
  const pieces = chainsOf(perform, { cars: sound, prepared, seed });
  // Without cars, or with too few runs to stand for all, longer chains would not help.
  const mayHelp = sound.length > 0 && prepared.every(({ enough }) => enough);
  const { belief, priors } = await agreed(pieces, mayHelp);
  const doubtful = priors.settled ? doubtfulCars(priors.gains) : [];
  const asked = conflictTasks(belief);
  const conflicts = (await perform(asked)).flatMap((result, n) =>
    'conflicts' in result && result.conflicts.length > 0
      ? [{ car: asked[n]!.car, conflicts: result.conflicts }]
      : [],
  );
  if (doubtful.length === 0) return { belief, priors, leftOut, conflicts };
  const others = await pieces.sampled(
    doubtful.map((without) => ({ ...WITHOUT_EFFORT, without })),
    belief.chains,
  );
  const told = others.flatMap((chains, n) => foretoldWithout(pieces.gathered(chains), doubtful[n]!));
  const gains = priors.gains.map(
    (gain) => told.find(({ car, tyre }) => car === gain.car && tyre === gain.tyre) ?? gain,
  );
  return { belief, priors: shopPriors(belief, gains), leftOut, conflicts };
}
