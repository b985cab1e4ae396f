import { writeToString } from 'fast-csv';

/** A table for a spreadsheet: one header row, then rows of text and numbers. */
export interface SheetTable {
  header: readonly string[];
  rows: readonly (readonly (string | number)[])[];
}

/** What a spreadsheet takes for the beginning of a formula, its full-width forms among it. */
const FORMULA = /^[=+@\t\r\uff1d\uff0b\uff0d\uff20]/;
/** A number below 0, with a unit or not; any other text that begins with a minus may be a formula. */
const NEGATIVE = /^-[\d.][\d.,/ ]*(?:[a-z%°][a-z %°]*)?$/i;

/** A cell that a spreadsheet would run as a formula is written as text. */
export const harmlessCell = (cell: string | number): string | number =>
  typeof cell === 'string' && (FORMULA.test(cell) || (cell.startsWith('-') && !NEGATIVE.test(cell)))
    ? `'${cell}`
    : cell;

/** Whether something is so, in a cell: one spelling in every table. */
export const yesNo = (is: boolean): 'yes' | 'no' => (is ? 'yes' : 'no');

/** A table as CSV text (RFC 4180 quoting), one header row, lines ended by LF. */
export async function csvText(table: SheetTable): Promise<string> {
  const rows = [table.header, ...table.rows].map((row) => row.map(harmlessCell));
  return writeToString(rows, { includeEndRowDelimiter: true });
}
