import type { Limit } from '@tubgap/simulation';
import { limitLines, mendsByLimits } from './limit.ts';
import { boundWords, comesClose } from './risk.ts';
import {
  type ReportLine,
  raiseWords,
  standingWords,
  type VerdictReport,
  type VerdictSubject,
  verdictLines,
} from './verdict.ts';

/** The tub that is in the car, judged where it stands, and the limits that were found for it. */
export type ExistingReport = Pick<VerdictReport, 'verdict'> & { limits: readonly Limit[] };

/** What alone would bring it within what is accepted, beside its height; or how far it may go where it is. */
function limitsOf({ verdict, limits }: ExistingReport): ReportLine[] {
  if (verdict.standing === 'within') return limitLines(limits);
  const mends = mendsByLimits(limits);
  const text =
    mends.length > 0
      ? mends.join('; or ')
      : 'nothing else of what was tried does it: see the limits in result.json';
  return [{ label: 'or by itself', text }];
}

/** The tub that is in the car in lines: how it stands and with which risk, and what would mend it. */
export function existingLines(report: ExistingReport, subject: VerdictSubject): ReportLine[] {
  const [first, ...rest] = verdictLines(report, subject);
  return [{ label: 'IN THE CAR', text: first!.text }, ...rest, ...limitsOf(report)];
}

/**
 * The same in a few words, for a paper that has no room for more: how it stands, with which risk, and the way up.
 * @param paper  what leads with it: 'sheet'
 */
export function existingBrief(
  { verdict, limits }: ExistingReport,
  { reserve, units }: Pick<VerdictSubject, 'reserve' | 'units'>,
  paper: string,
): { standing: string; rest: string } {
  const { runRisk, seasonRisk, standing } = verdict;
  const risk = `A run ${comesClose(reserve, units)} ${boundWords(runRisk.high)}, a season has such a run ${boundWords(seasonRisk.high)}.`;
  const raise = raiseWords(verdict, units);
  const other = mendsByLimits(limits).length > 0 ? 'other ways stand in the report' : '';
  const ways = [raise, other].filter((way) => way !== '').join('; ');
  const mend = standing === 'within' || ways === '' ? '' : ` To mend: ${ways}.`;
  return {
    standing: `In the car: ${standingWords(verdict, units)}.`,
    rest: `${risk}${mend} This ${paper} is for a tub that is built anew.`,
  };
}
