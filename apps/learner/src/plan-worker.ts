import { parentPort, workerData } from 'node:worker_threads';
import { makePlan, type PlanAsked } from './make-plan.ts';

/** Makes one plan in a thread of its own and hands it over. */
parentPort?.postMessage(await makePlan(workerData as PlanAsked));
