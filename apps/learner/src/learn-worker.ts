import { parentPort, workerData } from 'node:worker_threads';
import type { Case } from '@tubgap/casefile';
import { type LearnOptions, learn } from './learning.ts';

/** What is to be learned from. */
export interface LearnTask {
  source: Case;
  /** Folder of measurements. */
  folder: string;
  options: LearnOptions;
}

/** Learns in a thread of its own and hands over what came of it. */
const { source, folder, options } = workerData as LearnTask;
parentPort?.postMessage(await learn(source, folder, options));
