import type { CaseSetup } from '@tubgap/simulation';
import { wholeText } from '@tubgap/units';
import { enoughCommonRuns } from './common-runs.ts';
import type { Conflict } from './conflicts.ts';
import { type Agreement, agreementOf } from './learned.ts';
import { type Believed, believe } from './posterior.ts';

const EFFORTS = [
  { draws: 500, pilot: 200 },
  { draws: 2000, pilot: 600 },
] as const;

/** Cars that agree with everything, sampled longer when the chains do not agree at first. */
export function settledBelief(
  setup: CaseSetup,
  parts: Believed['parts'],
  seed: number,
): { believed: Believed; agreement: Agreement & { settled: boolean } } {
  const { runCount, enough } = enoughCommonRuns(setup, parts, seed);
  const [first, longer] = EFFORTS.map((effort) => () => believe(setup, parts, { seed, ...effort, runCount }));
  const quick = first!();
  const agreement = agreementOf(quick);
  if (agreement.settled || !enough) {
    return { believed: quick, agreement: { ...agreement, settled: agreement.settled && enough } };
  }
  const believed = longer!();
  return { believed, agreement: agreementOf(believed) };
}

/** Chances less than this are not told apart: few draws stand behind them. */
const RAREST = 1e-5;
/** No more figures of a chance are known than these. */
const FIGURES = 2;

/** A conflict in words: which reading, what speaks against it, and how seldom such a reading would come. */
export function conflictText({
  reading,
  against,
  chance,
}: Pick<Conflict, 'reading' | 'against' | 'chance'>): { reading: string; against: string } {
  const times = wholeText(Number((1 / Math.max(chance, RAREST)).toPrecision(FIGURES)));
  const often = chance < RAREST ? `fewer than 1 time in ${times}` : `about 1 time in ${times}`;
  return { reading, against: `at odds with ${against}: such a reading would come ${often}` };
}
