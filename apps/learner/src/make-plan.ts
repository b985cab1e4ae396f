import type { Case } from '@tubgap/casefile';
import { type FirstTest, planFirstTest } from '@tubgap/evidence';
import { type AskedTub, type JudgedTub, judgeTub } from '@tubgap/simulation';
import { elsewhere } from './elsewhere.ts';

/** What a plan is asked for. */
export interface PlanAsked {
  source: Case;
  asked: AskedTub;
  /** Index of the tyre that runs; the one that asks for the most height when left out. */
  tyre: number | undefined;
  /** Whether a tub that is not within what is accepted is planned for all the same. */
  isOverruled: boolean;
}

/** The verdict on the tub, and the plan; without one where the verdict forbids it. */
export interface PlanMade {
  judged: JudgedTub;
  plan: FirstTest | undefined;
}

/** Judges the tub, and plans its first test where it is within what is accepted; undefined: no tub, no height. */
export async function makePlan({
  source,
  asked,
  tyre,
  isOverruled,
}: PlanAsked): Promise<PlanMade | undefined> {
  const judged = await judgeTub(source, asked);
  if (judged === undefined) return undefined;
  const isPlanned = isOverruled || judged.verdict.standing === 'within';
  return { judged, plan: isPlanned ? planFirstTest(source, tyre ?? judged.tyre, judged) : undefined };
}

/** The same in a thread of its own. */
export const planElsewhere = (asked: PlanAsked): Promise<PlanMade | undefined> =>
  elsewhere(new URL('./plan-worker.js', import.meta.url), asked);
