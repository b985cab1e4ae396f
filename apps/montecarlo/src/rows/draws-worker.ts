import { workerData } from 'piscina';
import { keepPart } from './draws-folder.ts';
import type { DrawsPlan } from './draws-plan.ts';
import { partBytes } from './part-bytes.ts';

/** The plan and its folder, handed over once when the thread starts. */
const { plan, place } = workerData as { plan: DrawsPlan; place: string };

/** Makes one part and keeps it: a thread holds one file at a time, and none is handed over. */
export default function work(part: number): void {
  keepPart(place, plan, part, partBytes(plan, part));
}
