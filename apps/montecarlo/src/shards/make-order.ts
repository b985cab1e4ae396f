import { setImmediate } from 'node:timers/promises';
import type { Case } from '@tubgap/casefile';
import { openStudy } from '@tubgap/simulation';
import { comparedHeights, type StudyBase } from '../study/compare-setups.ts';
import type { SweepPlan } from '../study/sweep.ts';
import { SHARD_VERSION, type SweepOrder } from './order.ts';

/** Points that are opened at once to find their lowest heights: what is kept does not grow with their number. */
const CHUNK = 64;

/**
 * Heights that each tub is counted from over all points of a sweep, m. Opens every point, so that a sweep with a
 * setup that cannot be is refused before anything is run.
 * @throws StudyFault, RangeError that name the setup
 */
async function lowestHeights(plan: SweepPlan): Promise<number[]> {
  let lowest: number[] | undefined;
  for (let first = 0; first === 0 || first < plan.ats.length; first += CHUNK) {
    const some = plan.ats.slice(first, first + CHUNK).map(plan.setupAt);
    const found = openStudy([plan.base, ...some]).points[0]!.setup.lowestHeights;
    lowest = found.map((height, t) => Math.min(height, lowest?.[t] ?? height));
    // Between them a stop by hand is heard.
    await setImmediate();
  }
  return lowest!;
}

/**
 * Makes a sweep out so that any machine can work out any shard of it.
 * @param base  of the whole case: its draws and heights
 */
export async function makeOrder(
  plan: SweepPlan,
  base: StudyBase,
  whole: Case,
  shards: number,
  text: string,
  named: Readonly<Record<string, string>>,
  sweepFile: string,
): Promise<SweepOrder> {
  const { chosen: _, ...head } = plan.record(
    plan.base.source.tubs.map(() => undefined),
    base,
  );
  return {
    format: 'tubgap sweep order',
    version: SHARD_VERSION,
    head,
    shards,
    case: { text, named: { ...named } },
    sweepFile,
    values: plan.inputs.map(({ settings }) =>
      settings.map((some) => some.map(({ path, value }) => ({ path, value }))),
    ),
    centres: { ...base.centres, points: base.centres.points.map((point) => Array.from(point)) },
    compared: comparedHeights(base, whole, plan.base.source, plan.heights),
    lowest: await lowestHeights(plan),
  };
}
