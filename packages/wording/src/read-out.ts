import { BLANK, type Block, row, rowsOf, strongRow } from './block.ts';
import { boundWords, comesClose } from './risk.ts';
import {
  type ReportLine,
  reserveWith,
  TO_MEND,
  type VerdictReport,
  type VerdictSubject,
  verdictLines,
} from './verdict.ts';

/** What a verdict is told by: what is read out on the phone, and what stands below it. */
interface VerdictTold {
  /** How the tub stands, how often a run comes too close, and what would mend it. */
  lead: readonly [standing: ReportLine, tooClose: ReportLine, mend: ReportLine];
  rest: readonly ReportLine[];
}

/** A verdict with its three lines to read out before the others. */
function verdictTold(report: VerdictReport, subject: VerdictSubject): VerdictTold {
  const [standing, ...lines] = verdictLines(report, subject);
  const mend = lines.find(({ label }) => label === TO_MEND)!;
  const { units } = subject;
  const reserve = reserveWith(subject, report.verdict.limitingTyre);
  const tooClose = {
    label: 'TOO CLOSE',
    text: `a run ${comesClose(reserve, units)}: ${boundWords(report.verdict.runRisk.high)}`,
  };
  return {
    lead: [standing!, tooClose, { ...mend, label: TO_MEND.toUpperCase() }],
    rest: lines.filter((line) => line !== mend),
  };
}

/**
 * The same for a terminal.
 * @param third  read out in place of what would mend the tub, which then stands below; left out: that
 */
export function verdictBlocks(report: VerdictReport, subject: VerdictSubject, third?: ReportLine): Block[] {
  const { lead, rest } = verdictTold(report, subject);
  const [standing, tooClose, mend] = lead;
  return [
    ...[standing, tooClose, third ?? mend].map(({ label, text }) => strongRow(label, text)),
    BLANK,
    ...rowsOf(rest),
    ...(third === undefined ? [] : [row(TO_MEND, mend.text)]),
  ];
}
