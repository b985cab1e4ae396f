import { Worker } from 'node:worker_threads';

/** Works something out in a thread of its own. @param script  beside this file */
export function elsewhere<Result>(script: string, workerData: unknown): Promise<Result> {
  return new Promise((resolve, reject) => {
    const worker = new Worker(new URL(script, import.meta.url), { workerData });
    worker.once('message', resolve);
    worker.once('error', reject);
    worker.once('exit', (code) => {
      if (code !== 0) reject(new Error(`the simulation stopped with code ${code}`));
    });
  });
}
