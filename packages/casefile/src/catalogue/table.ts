import { readNumber, UNITS } from '@tubgap/units';
import { CONTROL, type Issue, issueAt, type Problem } from '../issue.ts';
import { nameList, nearestName } from '../nearest-name.ts';
import { type QuantitySpec, readQuantity } from '../quantity.ts';
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
  /** Nothing is assumed for it: every row must have it, or what may stand in its place. */
  needed?: true;
}

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

type Report = (cell: Cell, path: string, problem: Problem, severity?: Issue['severity']) => void;

/**
 * Judges the first line. A heading that is wrong is told there, once: as a fault where nothing stands in for the column
 * that was meant, else as a warning. Any other heading is the shop's own business.
 */
function checkHeader(
  headings: readonly Heading[],
  words: readonly string[],
  columns: readonly Column[],
  report: Report,
): void {
  const there = new Set(headings.map(({ cell, column }) => column?.head ?? cell.text));
  const absentWords = words.filter((word) => !there.has(word));
  const absent = columns.filter(({ head }) => !there.has(head));
  const columnOf = (known: string) => absent.find((column) => headsOf(column).includes(known));
  /** The head of a column that has it or one in its place. */
  const stands = ({ head, instead }: Column) =>
    [head, instead, ...columns.filter((other) => other.instead === head).map((other) => other.head)].some(
      (name) => name !== undefined && there.has(name),
    );
  const isNeeded = (known: string): boolean => {
    const column = columnOf(known);
    return column === undefined ? words.includes(known) : column.needed === true && !stands(column);
  };
  const told = new Set<string>();
  const seen = new Set<string>();
  for (const { cell, column } of headings) {
    const name = column?.head ?? cell.text;
    const bare = columns.find(({ head }) => head === cell.text);
    if (bare) {
      const allowed = nameList(headsOf(bare));
      const reason = `the head of a column of numbers ends in their unit: ${allowed}`;
      report(cell, name, { code: 'missing-unit', reason, allowed });
    } else if (column === undefined && !words.includes(name) && name !== '') {
      const known = [...absentWords, ...absent.flatMap(headsOf)];
      const nearest = nearestName(name, known);
      if (nearest !== undefined) {
        const needed = isNeeded(nearest);
        const carried = needed ? '' : "; it is carried along as the shop's own";
        const problem = {
          code: 'unknown-key',
          reason: `there is no column of this name${carried}`,
          allowed: known.join(', '),
          hint: `Did you mean ${nearest}?`,
        } as const;
        report(cell, name, problem, needed ? 'error' : 'warning');
        told.add(columnOf(nearest)?.head ?? nearest);
      }
    }
    if (name !== '' && seen.has(name))
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
  for (const word of absentWords) if (!told.has(word)) missing(word, word);
  for (const column of absent) {
    const others = columns.filter(({ instead }) => instead === column.head);
    if (!column.needed || stands(column) || [column, ...others].some(({ head }) => told.has(head))) continue;
    missing(headsOf(column)[0]!, nameList([column, ...others].flatMap(headsOf)));
  }
}

/** Letters that are kept of a cell of the shop's own. */
const LONGEST_LISTED = 200;

function readRow(
  cells: readonly Cell[],
  headings: readonly Heading[],
  wordHeads: readonly string[],
  report: Report,
): Omit<TableRow, 'name'> {
  const words: Record<string, string> = {};
  const values: Record<string, number> = {};
  const listed: Record<string, string> = {};
  const given = headings.flatMap(({ column }, index) => (column && cells[index]!.text !== '' ? [column] : []));
  /** Whether a blank cell leaves a row without something that it must have. */
  const lacks = ({ head, instead, needed }: Column) =>
    (needed || instead !== undefined) &&
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
    }
    else if (readNumber(cell.text) === undefined) {
      const reason = `expected a number alone; its unit, ${unit}, is in the head of the column`;
      report(cell, head.text, { code: 'not-a-number', reason });
    } else {
      const read = readQuantity(`${cell.text} ${unit}`, column.spec);
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
  checkHeader(headings, words, columns, report);
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
