import { parentPort, workerData } from 'node:worker_threads';
import { assessShort, standingVerdict } from '@tubgap/evidence';
import { type AssessAsked, risksAtHeights } from './assessed-case.ts';

/** Assesses one case in a thread of its own, judges the tub that stands in the car, and hands the result over. */
const { source, built, heights } = workerData as AssessAsked;
const asked = [...(heights ?? []), built?.topHeight].filter((height) => height !== undefined);
const short = assessShort(source, asked);
const standing = built === undefined ? undefined : standingVerdict(source, built, short);
parentPort?.postMessage({ ...risksAtHeights(short, heights), standing });
