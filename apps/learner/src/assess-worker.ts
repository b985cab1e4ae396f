import { parentPort, workerData } from 'node:worker_threads';
import type { Case } from '@tubgap/casefile';
import { assessShort } from '@tubgap/evidence';
import { riskTable } from './assessed-case.ts';

/** Assesses one case in a thread of its own and hands the result over. */
const { source } = workerData as { source: Case };
parentPort?.postMessage(riskTable(assessShort(source)));
