import { type Markup, markup } from '@tubgap/drawing';
import { type DecidedResult, limitsOf } from '@tubgap/results';
import { oneIn } from '@tubgap/units';
import {
  boundWords,
  comesClose,
  type ExistingReport,
  existingBrief,
  existingLines,
  type ReportLine,
} from '@tubgap/wording';
import { figuresOf, subjectIn } from './figures-of.ts';
import { chosenTub } from './sheets/chosen-tub.ts';

/** What stands before all that is said of a tub to build, where one is in the car already. */
export const ANEW = 'Built anew instead';

function existingReport({ existing }: DecidedResult): ExistingReport | undefined {
  if (existing === undefined) return undefined;
  // A file leaves out what is undefined.
  const { heightNeeded, whyNoHeight, ...rest } = existing.verdict;
  return { verdict: { heightNeeded, whyNoHeight, ...rest }, limits: existing.limits };
}

/** The tub that is in the car in lines: what report, picture and terminal lead with; none where the case has none. */
export function existingRows(result: DecidedResult): ReportLine[] {
  const report = existingReport(result);
  if (report === undefined) return [];
  return existingLines(report, subjectIn(result));
}

/** What a paper for a tub to build leads with where one is in the car already; undefined where the case has none. */
export function existingOn(
  result: DecidedResult,
  paper: string,
): ReturnType<typeof existingBrief> | undefined {
  const report = existingReport(result);
  return report && existingBrief(report, subjectIn(result), paper);
}

/** The same on a sheet. */
export function existingLead(result: DecidedResult): Markup | false {
  const lead = existingOn(result, 'sheet');
  return lead !== undefined && markup`<p class="stop"><b>${lead.standing}</b> ${lead.rest}</p>`;
}

/**
 * What is found at the one height that a case asks about, where the tub to build is set out at another; undefined where
 * nothing else was asked.
 */
export function askedHeightWords(result: DecidedResult): string | undefined {
  const { length } = figuresOf(result);
  const chosen = chosenTub(result);
  const own = chosen && result.heights[chosen.index];
  const [asked, ...more] = own ?? [];
  if (chosen === undefined || asked === undefined || more.length > 0) return undefined;
  if (result.heights.some((list) => list.length !== 1 || list[0] !== asked)) return undefined;
  if (Math.abs(asked - chosen.setOut) < 1e-4) return undefined;
  const risks = result.risks.slice(0, -1).map((tubs) => tubs[chosen.index]![0]!);
  const limits = risks.map((_, i) => limitsOf(result, result.tyres[i]!.name));
  // Of the tyre that uses up most of what is accepted in its class.
  const most = risks.reduce(
    (top, { high }, i) => (high / limits[i]!.runRisk > risks[top]!.high / limits[top]!.runRisk ? i : top),
    0,
  );
  const { high: worst } = risks[most]!;
  const { reserve, runRisk } = limits[most]!;
  const within = worst <= runRisk;
  return (
    `about a top at ${length(asked, 'nearest')}, which is another height than this: there a run ${comesClose(reserve, result.case.units)} ` +
    `${boundWords(worst)}, which is ${within ? 'within' : 'NOT within'} the accepted ${oneIn(runRisk)}`
  );
}
