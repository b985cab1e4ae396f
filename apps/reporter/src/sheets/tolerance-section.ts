import { type Markup, markup } from '@tubgap/drawing';
import { limitsOf, type Result } from '@tubgap/results';
import { INCH, oneIn, wholeText } from '@tubgap/units';
import { BOUND, comesClose } from '@tubgap/wording';
import { figuresOf } from '../figures-of.ts';
import type { ChosenTub } from './chosen-tub.ts';
import { toleranceText } from './lengths.ts';
import { sheetTable } from './sheet-page.ts';

/** How far from the pick the risk by height is shown, m: a sheet has room for seven or eight heights. */
const SHOWN = 0.75 * INCH;

/** Heights to set out that the page has room for. */
const MOST_ROWS = 4;

/**
 * Upper bound of the run risk at the heights of the risk table about the pick: of the limiting tyre, as at the pick. Heights
 * are rounded up like the pick's own: at what is read the risk is no more than what is told.
 */
function riskTable(result: Result, { index, height, setOut, asSetOut }: ChosenTub): Markup {
  const { length } = figuresOf(result);
  const limiting = result.tyres.findIndex(({ name }) => name === height.limitingTyre);
  const columns = result.heights[index]!.map((top, h) => ({
    top,
    high: result.risks[limiting]![index]![h]!.high,
    contact: result.contactRisks[limiting]![index]![h]!.high,
  }))
    .concat(
      { top: height.topHeight, high: height.runRisk.high, contact: height.contactRisk.high },
      { top: setOut, high: asSetOut.runRisk.high, contact: asSetOut.contactRisk.high },
    )
    .filter(({ top }) => Math.abs(top - height.topHeight) <= SHOWN + 1e-9)
    .sort((a, b) => a.top - b.top)
    .filter(({ top }, k, all) => k === 0 || top - all[k - 1]!.top > 1e-6);
  return sheetTable(
    `If the top comes out elsewhere: how often a run with ${height.limitingTyre} ${comesClose(limitsOf(result, height.limitingTyre).reserve, result.case.units)}, or touches (${BOUND}); how far off a tub may be built is counted in`,
    [{ text: 'top' }, ...columns.map(({ top }) => ({ text: length(top, 'up'), kind: 'n' as const }))],
    [
      { cells: ['too close', ...columns.map(({ high }) => oneIn(high))] },
      { cells: ['real contact', ...columns.map(({ contact }) => oneIn(contact))] },
    ],
  );
}

const countsText = ({ runs, cars }: NonNullable<Result['tolerances']>): string =>
  `${wholeText(runs)} runs${cars > 0 ? `, ${wholeText(cars)} seasons` : ''}`;

/** How far the tub may come out from where it was set out, by how much higher it is set out. */
export function toleranceSection(result: Result, chosen: ChosenTub): Markup {
  const { length } = figuresOf(result);
  const { tolerances } = result;
  if (tolerances === null) return riskTable(result, chosen);
  const rows = tolerances.rows.slice(0, MOST_ROWS).map((row) => ({
    cells: [
      length(chosen.height.topHeight + row.higher, 'up'),
      toleranceText(row.lower, figuresOf(result)),
      toleranceText(row.ahead, figuresOf(result)),
      toleranceText(row.back, figuresOf(result)),
      toleranceText(row.gapLess, figuresOf(result)),
    ],
    main: row === chosen.allowed,
  }));
  return markup`<p>The least top is ${length(chosen.height.topHeight, 'up')}: how far off a tub may be built is counted in. Once it stands and is measured, ${toleranceText(tolerances.rows[0]?.lower ?? 0, figuresOf(result))} of that is left downward. The sheets set out ${length(chosen.setOut, 'up')} (bold). Each error below is allowed alone, not several at once.</p>
${sheetTable(
  `May come out otherwise before the accepted risk is passed, once built and measured (${countsText(tolerances)}; rounded down)`,
  [
    { text: 'top set out at' },
    { text: 'top lower by', kind: 'n' },
    { text: 'centre ahead by', kind: 'n' },
    { text: 'centre back by', kind: 'n' },
    { text: 'gap less all round', kind: 'n' },
  ],
  rows,
)}
${riskTable(result, chosen)}`;
}
