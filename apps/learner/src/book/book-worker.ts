import { parentPort, workerData } from 'node:worker_threads';
import { type BookTask, performBookTask } from '@tubgap/evidence';
import { openPlainCar, type PlainCar } from './book-cars.ts';

/** Does pieces of a book's work, one after the other, until it is told that there are no more. */
const cars = (workerData as readonly PlainCar[]).map(openPlainCar);

parentPort?.on('message', (task: BookTask | 'end') => {
  if (task === 'end') parentPort?.close();
  else parentPort?.postMessage(performBookTask(cars, task));
});
