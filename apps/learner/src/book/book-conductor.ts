import { parentPort, Worker, workerData } from 'node:worker_threads';
import { type BookTask, type BookTaskResult, learnBook } from '@tubgap/evidence';
import { openPlainCar, type PlainCar } from './book-cars.ts';
import { type FinishAsked, finishBook } from './finish-book.ts';

/** What is to be learned from, by how many threads. */
export interface ConductorTask extends FinishAsked {
  cars: readonly PlainCar[];
  seed: number;
  workers: number;
}

/** Gives one piece of the work to a thread and waits for it. */
function worked(worker: Worker, task: BookTask): Promise<BookTaskResult> {
  return new Promise((resolve, reject) => {
    const failed = (error: Error): void => reject(error);
    worker.once('error', failed);
    worker.once('message', (result: BookTaskResult) => {
      worker.off('error', failed);
      resolve(result);
    });
    worker.postMessage(task);
  });
}

const { cars, seed, workers, ...asked } = workerData as ConductorTask;
const threads: Worker[] = [];

/** Shares tasks among the threads, which are started as they are needed; results come in the order of the tasks. */
async function perform(tasks: readonly BookTask[]): Promise<BookTaskResult[]> {
  while (threads.length < Math.min(workers, tasks.length)) {
    threads.push(new Worker(new URL('./book-worker.js', import.meta.url), { workerData: cars }));
  }
  const results: BookTaskResult[] = [];
  let next = 0;
  const work = async (thread: Worker): Promise<void> => {
    while (next < tasks.length) {
      const index = next++;
      results[index] = await worked(thread, tasks[index]!);
    }
  };
  await Promise.all(threads.map(work));
  return results;
}

/** Learns from a book in a thread of its own, so that whoever waits for it hears a stop, and hands over what was found. */
const learned = await learnBook(cars.map(openPlainCar), seed, perform);
for (const thread of threads) thread.postMessage('end');
parentPort?.postMessage(finishBook(learned, cars, asked));
