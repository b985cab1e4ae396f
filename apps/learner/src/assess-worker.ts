import { parentPort, workerData } from 'node:worker_threads';
import type { Case } from '@tubgap/casefile';
import { type AsBuilt, assessShort, standingVerdict } from '@tubgap/evidence';
import { riskTable } from './assessed-case.ts';

/** Assesses one case in a thread of its own, judges the tub that stands in the car, and hands the result over. */
const { source, built } = workerData as { source: Case; built: AsBuilt | undefined };
const short = assessShort(source);
const standing = built === undefined ? undefined : standingVerdict(source, built, short);
parentPort?.postMessage({ ...riskTable(short), standing });
