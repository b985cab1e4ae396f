import { writeToString } from 'fast-csv';
import { type Column, columnsOf } from './columns/column.ts';

/** A table for a spreadsheet: one header row with the names of its columns, then rows of text and numbers. */
export interface SheetTable {
  columns: readonly Column[];
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
  const header = table.columns.map(({ name }) => name);
  const rows = [header, ...table.rows].map((row) => row.map(harmlessCell));
  return writeToString(rows, { includeEndRowDelimiter: true });
}

/** The dictionary of the tables of a folder. */
export const COLUMNS_FILE = 'columns.csv';

/** Every column of some tables, by their files, with its unit and what it means, as CSV. @param own  the file of that */
export function columnsText(
  tables: Readonly<Record<string, readonly Column[]>>,
  own = COLUMNS_FILE,
): Promise<string> {
  const columns = columnsOf('inch', 'file', 'column', 'unit', 'about');
  const rows = Object.entries({ ...tables, [own]: columns }).flatMap(([file, described]) =>
    described.map(({ name, unit, about }) => [file, name, unit, about]),
  );
  return csvText({ columns, rows });
}

/** Tables of a folder as files, and beside them their dictionary: name → text. @param own  the file of that */
export async function tableFiles(
  tables: Readonly<Record<string, SheetTable | undefined>>,
  own = COLUMNS_FILE,
): Promise<Record<string, string>> {
  const files: Record<string, string> = {};
  const described: Record<string, readonly Column[]> = {};
  for (const [file, table] of Object.entries(tables)) {
    if (table === undefined) continue;
    files[file] = await csvText(table);
    described[file] = table.columns;
  }
  return { ...files, [own]: await columnsText(described, own) };
}
