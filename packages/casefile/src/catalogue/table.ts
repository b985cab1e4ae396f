import { parseMeasure, readNumber, UNITS } from '@tubgap/units';
import { type Issue, issueAt, type Problem } from '../issue.ts';
import { didYouMean, nameList } from '../nearest-name.ts';
import { dateProblem, type QuantitySpec, readQuantity } from '../quantity.ts';
import { type Cell, readCsv } from '../text/csv.ts';

/** Letters; several thousand rows. */
const LARGEST_TABLE = 1_000_000;

/** A column of numbers. Its head carries the unit: `liner_in`, `liner_mm`. */
export interface Column {
  head: string;
  field: string;
  spec: QuantitySpec;
  /** Head of a column that may stand in its place. */
  instead?: string;
}

/** A row that was read without fault. */
export interface TableRow {
  name: string;
  line: number;
  words: Readonly<Record<string, string>>;
  /** SI, by field. */
  values: Readonly<Record<string, number>>;
  cells: readonly Cell[];
}

export interface ReadTable {
  rows: TableRow[];
  issues: Issue[];
  /** Reports a fault of a column's cell in a row. */
  fault(row: TableRow, head: string, problem: Problem): void;
}

const headOf = (column: Column, unit: string) => `${column.head}_${unit.toLowerCase().replaceAll('/', '_')}`;

/** The heads that a column may have, its usual one first. */
const headsOf = (column: Column) => UNITS[column.spec.kind].map(({ name }) => headOf(column, name));

/** The first line of a table in its usual form, as messages show it. */
const usualHeader = (words: readonly string[], columns: readonly Column[]) => [
  ...words,
  ...columns.filter(({ instead }) => instead === undefined).map((column) => headsOf(column)[0]!),
];

/** A column of the file: of numbers with its unit, of words, or unknown. */
interface Heading {
  cell: Cell;
  column?: Column;
  unit?: string;
}

function headingOf(cell: Cell, columns: readonly Column[]): Heading {
  for (const column of columns) {
    const unit = UNITS[column.spec.kind].find(({ name }) => headOf(column, name) === cell.text);
    if (unit) return { cell, column, unit: unit.name };
  }
  return { cell };
}

type Report = (cell: Cell, path: string, problem: Problem) => void;

function checkHeader(
  headings: readonly Heading[],
  words: readonly string[],
  columns: readonly Column[],
  report: Report,
): void {
  const usual = nameList(usualHeader(words, columns));
  const known = [...words, ...columns.flatMap(headsOf)];
  const seen = new Set<string>();
  for (const { cell, column } of headings) {
    const name = column?.head ?? cell.text;
    const bare = columns.find(({ head }) => head === cell.text);
    if (bare) {
      const allowed = nameList(headsOf(bare));
      const reason = `the head of a column of numbers ends in their unit: ${allowed}`;
      report(cell, name, { code: 'missing-unit', reason, allowed });
    } else if (column === undefined && !words.includes(name)) {
      const hint = didYouMean(name, known);
      const reason = `there is no column of this name${hint ? '' : `; usual are ${usual}`}`;
      const problem = { code: 'unknown-key', reason, allowed: known.join(', ') } as const;
      report(cell, name, hint ? { ...problem, hint } : problem);
    }
    if (seen.has(name))
      report(cell, cell.text, { code: 'duplicate-name', reason: 'this column is there twice' });
    seen.add(name);
  }
  const start = { ...headings[0]!.cell, text: '' };
  const missing = (name: string, allowed: string) =>
    report(start, name, {
      code: 'missing',
      reason: `this column is missing; allowed are ${allowed}`,
      allowed,
    });
  for (const word of words) if (!seen.has(word)) missing(word, word);
  for (const column of columns) {
    const { head, instead } = column;
    const other = columns.find((candidate) => candidate.instead === head);
    if (seen.has(head) || instead !== undefined || (other && seen.has(other.head))) continue;
    missing(headsOf(column)[0]!, nameList([column, ...(other ? [other] : [])].flatMap(headsOf)));
  }
}

function readRow(
  cells: readonly Cell[],
  headings: readonly Heading[],
  report: Report,
): Omit<TableRow, 'name'> {
  const words: Record<string, string> = {};
  const values: Record<string, number> = {};
  for (const [index, cell] of cells.entries()) {
    const { cell: head, column, unit } = headings[index]!;
    if (cell.text === '') report(cell, head.text, { code: 'missing', reason: 'nothing is written here' });
    else if (column === undefined) words[head.text] = cell.text;
    else if (readNumber(cell.text) === undefined && !parseMeasure(cell.text)?.unit) {
      const reason = `expected a number alone; its unit, ${unit}, is in the head of the column`;
      report(cell, head.text, dateProblem(cell.text) ?? { code: 'not-a-number', reason });
    } else {
      // A cell that names its unit itself, as 39 1/4", is read by that.
      const own = readNumber(cell.text) === undefined ? cell.text : `${cell.text} ${unit}`;
      const read = readQuantity(own, column.spec);
      if (read.ok) values[column.field] = read.value;
      else report(cell, head.text, read.problem);
    }
  }
  return { line: cells[0]!.line, words, values, cells };
}

/**
 * Reads a table with one thing a row: columns of words, the first of them its name, and columns of numbers. All
 * columns must be there, in any order; names must differ. Rows with a fault are left out and reported.
 */
export function readTable(
  file: string,
  text: string,
  words: readonly [string, ...string[]],
  columns: readonly Column[],
): ReadTable {
  const issues: Issue[] = [];
  const report: Report = ({ line, column, text: read }, path, problem) => {
    issues.push(
      issueAt({ file, line, column, path, ...(read === '' ? {} : { read: read.slice(0, 60) }) }, problem),
    );
  };
  const whole: Cell = { line: 1, column: 1, text: '' };
  const none: ReadTable = { rows: [], issues, fault: () => {} };
  if (text.length > LARGEST_TABLE) {
    const reason = `a catalogue may have ${LARGEST_TABLE} letters at most, this one has ${text.length}`;
    report(whole, '', { code: 'file', reason });
    return none;
  }
  const { rows: lines, faults } = readCsv(text);
  for (const { problem, ...place } of faults) report({ ...place, text: '' }, '', problem);
  const [header, ...body] = lines;
  if (header === undefined) {
    const hint = `Its first line names the columns: ${usualHeader(words, columns).join(',')}`;
    report(whole, '', { code: 'file', reason: 'this catalogue is empty', hint });
    return none;
  }
  const headings = header.map((cell) => headingOf(cell, columns));
  checkHeader(headings, words, columns, report);
  const complete = issues.length === 0;

  const cellOf = (cells: readonly Cell[], head: string) =>
    cells[headings.findIndex(({ cell, column }) => (column?.head ?? cell.text) === head)] ?? cells[0]!;
  const nameLines = new Map<string, number>();
  const rows = body.flatMap((cells): TableRow[] => {
    const start = { ...cells[0]!, text: '' };
    if (cells.length !== header.length) {
      const reason = `this line has ${cells.length} cells, the first line names ${header.length} columns`;
      report(start, '', { code: 'syntax', reason });
      return [];
    }
    const before = issues.length;
    const row = readRow(cells, headings, report);
    const name = row.words[words[0]];
    if (name === undefined) return [];
    const earlier = nameLines.get(name);
    if (earlier !== undefined) {
      const reason = `this name is already taken on line ${earlier}`;
      report(cellOf(cells, words[0]), words[0], { code: 'duplicate-name', reason });
    } else nameLines.set(name, row.line);
    return complete && issues.length === before ? [{ name, ...row }] : [];
  });
  return { rows, issues, fault: ({ cells }, head, problem) => report(cellOf(cells, head), head, problem) };
}
