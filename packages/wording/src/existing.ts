import type { Limit } from '@tubgap/simulation';
import { oneIn, sixteenths } from '@tubgap/units';
import { limitLines, mendsByLimits } from './limit.ts';
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

/** The same in two sentences, for a sheet that has no room for more: how it stands, and what would mend it. */
export function existingBrief(
  { verdict, limits }: ExistingReport,
  { reserve }: Pick<VerdictSubject, 'reserve'>,
): { standing: string; rest: string } {
  const { limitingTyre, runRisk, seasonRisk, accepted, standing } = verdict;
  const risk = `${limitingTyre} goes under the ${sixteenths(reserve, 'up')} reserve in at most ${oneIn(runRisk.high)} runs (accepted: ${oneIn(accepted.runRisk)}), in at most ${oneIn(seasonRisk.high)} seasons (accepted: ${oneIn(accepted.seasonRisk)})`;
  const ways = [raiseWords(verdict), ...mendsByLimits(limits)].filter((way) => way !== '');
  const mend = standing === 'within' || ways.length === 0 ? '' : ` To mend: ${ways.join('; or ')}.`;
  return { standing: standingWords(verdict), rest: `${risk}.${mend}` };
}
