import { labelledBars } from '@tubgap/drawing';
import type { Result } from '@tubgap/results';
import { WHOLE_CLOSING } from '@tubgap/simulation';
import { SIXTEENTH } from '@tubgap/units';
import { shareWords } from '@tubgap/wording';
import { limitingGap } from '../tables.ts';
import { inches } from './measures.ts';

/** Too small for a row of its own, m. */
const SMALL = SIXTEENTH;

const isSmall = ({ p50, p99 }: { p50: number; p99: number }): boolean =>
  Math.max(Math.abs(p50), Math.abs(p99)) < SMALL;

/** What takes the gap away, at the tightest moment of the limiting tyre; undefined without a pick. */
export function sharesFigure(result: Result): { svg: string; moment: string; tyre: string } | undefined {
  const t = result.chosen;
  if (t === null) return undefined;
  const tyre = result.picks[t]?.height?.limitingTyre;
  const index = result.tyres.findIndex((own) => own.name === tyre);
  const moment = limitingGap(result, t)?.tightestMoment;
  const rows = result.shares[t]?.[index]?.filter((row) => row.moment === moment && !isSmall(row)) ?? [];
  if (tyre === undefined || moment === undefined || rows.length === 0) return undefined;
  const whole = rows.find((row) => row.share === WHOLE_CLOSING);
  const svg = labelledBars({
    words: {
      id: 'shares',
      title: `Where the gap of ${tyre} goes, ${moment}`,
      description:
        `Largest first among the causes: ${rows
          .filter((row) => row.share !== WHOLE_CLOSING)
          .toSorted((a, b) => b.p50 - a.p50)
          .slice(0, 4)
          .map((row) => `${shareWords(row.share)} ${inches(row.p50, 'up')}`)
          .join(', ')}` +
        (whole === undefined ? '.' : `; whole closing ${inches(whole.p50, 'up')} in an ordinary run.`),
    },
    series: ['ordinary run', '1 run in 100 has more'],
    rows: rows.map((row) => ({
      label: shareWords(row.share),
      apart: row.share === WHOLE_CLOSING,
      bars: [row.p50, row.p99].map((value) => ({ value, text: inches(value, 'up') })),
    })),
  });
  return { svg, moment, tyre };
}
