import { writeToString } from 'fast-csv';

/** A table for a spreadsheet: one header row, then rows of text and numbers. */
export interface SheetTable {
  header: readonly string[];
  rows: readonly (readonly (string | number)[])[];
}

/** A cell that a spreadsheet would run as a formula is written as text. */
const harmless = (cell: string | number): string | number =>
  typeof cell === 'string' && /^[=+@\t\r]|^-(?![\d.])/.test(cell) ? `'${cell}` : cell;

/** A table as CSV text (RFC 4180 quoting), one header row, lines ended by LF. */
export async function csvText(table: SheetTable): Promise<string> {
  const rows = [table.header, ...table.rows].map((row) => row.map(harmless));
  return writeToString(rows, { includeEndRowDelimiter: true });
}
