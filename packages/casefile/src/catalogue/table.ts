import { parseMeasure, readNumber } from '@tubgap/units';
import { CONTROL, type Issue, issueAt, type Problem } from '../issue.ts';
import { dateProblem, readQuantity } from '../quantity.ts';
import { type Cell, readCsv } from '../text/csv.ts';
import { type Column, checkHeader, type Heading, headingOf, type Report, usualHeader } from './header.ts';

/** Letters; several thousand rows. */
const LARGEST_TABLE = 1_000_000;

/** A row that was read without fault. */
export interface TableRow {
  name: string;
  line: number;
  words: Readonly<Record<string, string>>;
  /** SI, by field; a blank cell has none. */
  values: Readonly<Record<string, number>>;
  /** What stands in the shop's own columns, by their heads; blank cells left out. */
  listed: Readonly<Record<string, string>>;
  cells: readonly Cell[];
}

export interface ReadTable {
  rows: TableRow[];
  issues: Issue[];
  /** Reports a fault of a column's cell in a row. */
  fault(row: TableRow, head: string, problem: Problem, severity?: Issue['severity']): void;
}

/** Letters that are kept of a cell of the shop's own. */
const LONGEST_LISTED = 200;

/** What stands in the column of names. */
const nameIn = (
  cells: readonly Cell[],
  headings: readonly Heading[],
  [head]: readonly [string, ...string[]],
) => cells[headings.findIndex(({ cell }) => cell.text === head)]?.text ?? '';

function readRow(
  cells: readonly Cell[],
  headings: readonly Heading[],
  wordHeads: readonly [string, ...string[]],
  report: Report,
): Omit<TableRow, 'name'> {
  const words: Record<string, string> = {};
  const values: Record<string, number> = {};
  const listed: Record<string, string> = {};
  const name = nameIn(cells, headings, wordHeads);
  const given = headings.flatMap(({ column }, index) =>
    column && cells[index]!.text !== '' ? [column] : [],
  );
  /** Whether a blank cell leaves a row without something that it must have. */
  const lacks = ({ head, instead, needed, byName }: Column) =>
    (needed || instead !== undefined) &&
    !byName?.(name) &&
    !given.some((other) => other.instead === head || other.head === instead);
  for (const [index, cell] of cells.entries()) {
    const { cell: head, column, unit } = headings[index]!;
    const isWord = wordHeads.includes(head.text);
    if (cell.text === '') {
      if (isWord || (column && lacks(column)))
        report(cell, head.text, { code: 'missing', reason: 'nothing is written here' });
    } else if (isWord) words[head.text] = cell.text;
    else if (column === undefined) {
      if (head.text !== '') {
        listed[head.text] = cell.text.replace(new RegExp(CONTROL, 'gu'), ' ').slice(0, LONGEST_LISTED);
      }
    } else if (readNumber(cell.text) === undefined && !parseMeasure(cell.text)?.unit) {
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
  return { line: cells[0]!.line, words, values, listed, cells };
}

/** What parts the cells of a table that is not parted by commas; undefined for one that is. */
const otherSeparator = (header: readonly Cell[]): string | undefined =>
  header.length > 1 ? undefined : [';', '\t'].find((sign) => header[0]!.text.includes(sign));

/**
 * Reads a table with one thing a row: columns of words, the first of them its name, and columns of numbers, in any order;
 * what else there is belongs to the shop and is carried along. Names must differ. Rows with a fault are left out and
 * reported.
 */
export function readTable(
  file: string,
  text: string,
  words: readonly [string, ...string[]],
  columns: readonly Column[],
): ReadTable {
  const issues: Issue[] = [];
  const report: Report = ({ line, column, text: read }, path, problem, severity) => {
    const place = { file, line, column, path, ...(read === '' ? {} : { read: read.slice(0, 60) }) };
    issues.push(issueAt(place, problem, severity));
  };
  const isSound = () => issues.every(({ severity }) => severity === 'warning');
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
  const separator = otherSeparator(header);
  if (separator !== undefined) {
    const reason = `its cells are parted by ${separator === ';' ? 'semicolons' : 'tabs'}, not by commas`;
    const hint = 'Save the sheet as CSV with commas, and with points before decimals';
    report(whole, '', { code: 'syntax', reason, hint });
    return none;
  }
  const headings = header.map((cell) => headingOf(cell, columns));
  const nameless = columns.map(({ byName, needed, ...column }): Column => {
    const stands = byName !== undefined && body.every((cells) => byName(nameIn(cells, headings, words)));
    return needed && !stands ? { ...column, needed } : column;
  });
  checkHeader(headings, words, nameless, report);
  const lengths = new Set(body.map((cells) => cells.length));
  if (body.length > 1 && lengths.size === 1 && !lengths.has(header.length)) {
    const cells = `every line below has ${body[0]!.length} cells`;
    report(whole, '', { code: 'syntax', reason: `the first line names ${header.length} columns, ${cells}` });
    return none;
  }
  const complete = isSound();

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
    const row = readRow(cells, headings, words, report);
    const name = row.words[words[0]];
    if (name === undefined) return [];
    const earlier = nameLines.get(name);
    if (earlier !== undefined) {
      const reason = `this name is already taken on line ${earlier}`;
      report(cellOf(cells, words[0]), words[0], { code: 'duplicate-name', reason });
    } else nameLines.set(name, row.line);
    return complete && issues.length === before ? [{ name, ...row }] : [];
  });
  return { rows, issues, fault: ({ cells }, head, ...rest) => report(cellOf(cells, head), head, ...rest) };
}
