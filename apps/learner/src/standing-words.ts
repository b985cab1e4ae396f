import type { Case } from '@tubgap/casefile';
import type { Risk, Verdict } from '@tubgap/simulation';
import { HARDLY_EVER } from '@tubgap/units';
import {
  comesClose,
  raiseWords,
  reserveWith,
  riskWords,
  standingWords,
  subjectOf,
  verdictLines,
} from '@tubgap/wording';
import type { StandingTub } from './outcome.ts';
import type { LabelledText } from './stop-words.ts';

/** A risk no rarer than a learner's few draws can tell. */
const ofFew = (risk: Risk): Risk =>
  risk.estimate > 0 && risk.estimate < HARDLY_EVER
    ? { ...risk, estimate: HARDLY_EVER, high: Math.max(HARDLY_EVER, risk.high) }
    : risk;

const verdictOfFew = (verdict: Verdict): Verdict => ({
  ...verdict,
  tyres: verdict.tyres.map((tyre) => ({
    ...tyre,
    runRisk: ofFew(tyre.runRisk),
    contactRisk: ofFew(tyre.contactRisk),
  })),
  runRisk: ofFew(verdict.runRisk),
  contactRisk: ofFew(verdict.contactRisk),
  seasonRisk: ofFew(verdict.seasonRisk),
});

/** A verdict in one sentence: how the tub stands, the risk of a run, and how far it must go up. */
function verdictSentence(verdict: Verdict, source: Case): string {
  const { units } = source;
  const reserve = reserveWith(subjectOf(source), verdict.limitingTyre);
  const raise = verdict.standing === 'within' ? '' : `; ${raiseWords(verdict, units)}`;
  return `${standingWords(verdict, units)}; a run ${comesClose(reserve, units)}: ${riskWords(ofFew(verdict.runRisk), 'run')}${raise}`;
}

/**
 * The tub that was measured: as it is believed now, then as the case alone has it.
 * @param isRefuted  a rub shows that the case leaves something out: its verdict is then no clearance
 */
export function standingRows(
  source: Case,
  { before, after }: StandingTub,
  isRefuted: boolean,
): LabelledText[] {
  if (isRefuted) {
    return [
      {
        label: 'Case alone',
        text: `${verdictSentence(before, source)}. The rub shows that the case leaves something out: this clears nothing`,
      },
    ];
  }
  const now = verdictLines({ verdict: verdictOfFew(after ?? before) }, subjectOf(source));
  if (after === undefined) return now;
  return [...now, { label: 'Before', text: verdictSentence(before, source) }];
}
