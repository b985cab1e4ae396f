import { parentPort, workerData } from 'node:worker_threads';
import { type BookEffort, bookChain, gatherBook, type PreparedCar, prepareCar } from '@tubgap/evidence';
import type { PooledDraws } from '@tubgap/statistics';
import { openPlainCar, type PlainCar } from './book-cars.ts';
import { finishBook } from './finish-book.ts';

/** What a thread is to work out of a book. */
export type BookTask =
  | { kind: 'prepare'; cars: readonly PlainCar[]; seed: number }
  | {
      kind: 'chain';
      cars: readonly PlainCar[];
      prepared: readonly PreparedCar[];
      effort: BookEffort;
      chain: number;
    }
  | {
      kind: 'finish';
      cars: readonly PlainCar[];
      prepared: readonly PreparedCar[];
      chains: readonly PooledDraws[];
      seed: number;
      madeBy: string;
      origins: Parameters<typeof finishBook>[1]['origins'];
    };

function worked(task: BookTask): unknown {
  const cars = task.cars.map(openPlainCar);
  switch (task.kind) {
    case 'prepare':
      return cars.map((car) => prepareCar(car, task.seed));
    case 'chain':
      return bookChain(cars, task.prepared, task.effort, task.chain);
    case 'finish':
      return finishBook(gatherBook(cars, task.prepared, task.seed, task.chains), task);
  }
}

parentPort?.postMessage(worked(workerData as BookTask));
