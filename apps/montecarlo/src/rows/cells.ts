import type { RowAnswers } from '@tubgap/simulation';
import { harmlessCell } from '@tubgap/wording';

/** One column's cells of some rows. */
export type Cells = ArrayLike<number> | readonly string[];

/** What the model says of runs, column by column, in the order of `answerColumns`. */
export const answerCells = ({ tubs, hardGaps, gaps }: RowAnswers): Cells[] => [
  ...tubs.flatMap(({ requiredHeight, contactHeight, tightAngle, moment, wall }) => [
    requiredHeight,
    contactHeight,
    tightAngle,
    moment,
    wall,
  ]),
  ...hardGaps.map((gaps) => gaps.map((gap) => (gap === Number.POSITIVE_INFINITY ? Number.NaN : gap))),
  ...gaps.flatMap(({ atRest, inRun }) => [atRest, inRun]),
];

/** A word as a CSV cell that no spreadsheet runs, quoted where it must be (RFC 4180). */
function wordCell(word: string): string {
  const text = String(harmlessCell(word));
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** A number in the fewest digits that read back as the same number: inf where no height does, empty where nothing is told. */
const numberCell = (value: number): string =>
  Number.isNaN(value) ? '' : value === Number.POSITIVE_INFINITY ? 'inf' : String(value);

const cellText = (cell: number | string): string =>
  typeof cell === 'number' ? numberCell(cell) : wordCell(cell);

/** Some rows as CSV lines, LF behind each. */
export const csvLines = (columns: readonly Cells[], rows: number): string[] =>
  Array.from({ length: rows }, (_, row) => `${columns.map((cells) => cellText(cells[row]!)).join(',')}\n`);

/** The first line of a table. */
export const csvHead = (names: readonly string[]): string => `${names.map(wordCell).join(',')}\n`;
