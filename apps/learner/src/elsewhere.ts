import { Worker } from 'node:worker_threads';

/** Works something out by a script in a thread of its own. */
export function elsewhere<Result>(script: URL, workerData: unknown): Promise<Result> {
  return new Promise((resolve, reject) => {
    const worker = new Worker(script, { workerData });
    worker.once('message', resolve);
    worker.once('error', reject);
    worker.once('exit', (code) => {
      if (code !== 0) reject(new Error(`the simulation stopped with code ${code}`));
    });
  });
}
