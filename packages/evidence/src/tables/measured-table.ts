import { readCsv } from '@tubgap/casefile';
import { type QuantityKind, readNumber, UNITS, type Unit } from '@tubgap/units';
import type { Rejected } from '../readings.ts';
import { LARGEST_TABLE, leftOut, noNumber, noTable, quoted, withCommas } from './table-text.ts';

/** A column of numbers that a table of measurements has; its unit stands in the head. */
export interface NumberColumn {
  head: string;
  kind: QuantityKind | 'count';
  /** SI, both included. */
  low: number;
  high: number;
  /** Without it the table still counts. */
  optional?: true;
  /** In words, with the unit that ranges are told in. */
  unit: string;
}

/** A row with its numbers in SI, by head, and its words; an optional one that is empty is left out. */
export interface MeasuredRow {
  line: number;
  words: Readonly<Record<string, string>>;
  numbers: Readonly<Record<string, number>>;
}

export interface MeasuredTable {
  rows: MeasuredRow[];
  rejected: Rejected[];
}

/** Columns of a table that is typed by hand, those that are passed over among them. */
const MOST_COLUMNS = 200;

const plain = (text: string): string =>
  text
    .toLowerCase()
    .replace(/[\s_\-()[\]{}.,:]+/g, ' ')
    .trim();

const NO_UNIT: readonly Unit[] = [{ name: '', factor: 1, offset: 0 }];

const unitsOf = (column: NumberColumn): readonly Unit[] =>
  column.kind === 'count' ? NO_UNIT : UNITS[column.kind];

/** The unit of a head that names the column, or undefined: "rollout_in", "Rollout (in)" and "rollout [mm]" all do. */
export function unitOfHead(text: string, column: NumberColumn): Unit | undefined {
  const head = plain(text);
  return unitsOf(column).find((unit) => {
    const name = plain(column.head);
    return (
      head === plain(unit.name === '' ? name : `${name} ${unit.name.replace('/', '_')}`) ||
      head === `${name} ${unit.name}`.trim()
    );
  });
}

export const shown = (value: number, column: NumberColumn): string => {
  const unit = unitsOf(column).find(({ name }) => name === column.unit) ?? unitsOf(column)[0]!;
  return `${Number(((value - unit.offset) / unit.factor).toPrecision(5))} ${unit.name}`.trim();
};

/** Whether a value cannot stand in a column; a bound in another unit is still inside but for the last bits. */
export const outOfRange = ({ low, high }: NumberColumn, value: number): boolean =>
  value < low - 1e-9 || value > high + 1e-9;

/** That a value is out of a column's range, with the range; undefined when it is in it. */
export function rangeDoubt(column: NumberColumn, value: number): string | undefined {
  if (!outOfRange(column, value)) return undefined;
  return `out of range: ${shown(column.low, column)} to ${shown(column.high, column)}`;
}

/**
 * Reads a table of measurements: words and numbers in any order of columns, others passed over. Rows with a fault are
 * left out with their line and the reason; a table without a column that it needs is left out whole.
 * @param optionalWords  columns of words that may be missing or empty
 */
export function readMeasuredTable(
  file: string,
  text: string,
  words: readonly string[],
  optionalWords: readonly string[],
  columns: readonly NumberColumn[],
): MeasuredTable {
  const whole = (reason: string): MeasuredTable => ({ rows: [], rejected: [{ file, line: 0, reason }] });
  const unread = noTable(text, LARGEST_TABLE);
  if (unread !== undefined) return whole(unread);
  const left = leftOut(file);
  const { rows: lines, faults } = readCsv(withCommas(text, firstLine(text)));
  for (const fault of faults) left.fault(fault);
  const [header, ...body] = lines;
  const usual = [...words, ...columns.filter(({ optional }) => !optional).map(headText)].join(', ');
  if (header === undefined) {
    return whole(`the file is empty; its first line names the columns: ${usual}`);
  }
  if (header.length > MOST_COLUMNS) {
    return whole(`the first line names ${header.length} columns; at most ${MOST_COLUMNS} are read`);
  }
  const wordAt = new Map<string, number>();
  const numberAt = new Map<NumberColumn, { index: number; unit: Unit }>();
  const twice = new Set<string>();
  header.forEach((cell, index) => {
    for (const word of [...words, ...optionalWords]) {
      if (plain(cell.text) !== plain(word)) continue;
      if (wordAt.has(word)) twice.add(word);
      wordAt.set(word, index);
    }
    for (const column of columns) {
      const unit = unitOfHead(cell.text, column);
      if (unit === undefined) continue;
      if (numberAt.has(column)) twice.add(column.head);
      numberAt.set(column, { index, unit });
    }
  });
  if (twice.size > 0) {
    return whole(`the first line names ${[...twice].join(' and ')} twice; keep one column of each`);
  }
  const missing = [
    ...words.filter((word) => !wordAt.has(word)),
    ...columns.filter((column) => !column.optional && !numberAt.has(column)).map(headText),
  ];
  if (missing.length > 0) {
    return whole(
      `the first line lacks ${missing.join(' and ')}; needed are ${usual}, each number with its unit`,
    );
  }
  const rows = body.flatMap((cells): MeasuredRow[] => {
    const line = cells[0]!.line;
    const no = (reason: string, column?: number): MeasuredRow[] => {
      left.add(line, reason, column);
      return [];
    };
    if (cells.length !== header.length) {
      return no(`this line has ${cells.length} cells, the first line names ${header.length} columns`);
    }
    const rowWords: Record<string, string> = {};
    for (const [word, index] of wordAt) rowWords[word] = cells[index]!.text;
    const empty = words.find((word) => rowWords[word] === '');
    if (empty !== undefined) {
      return no(`nothing is written under ${empty}`, cells[wordAt.get(empty)!]!.column);
    }
    const numbers: Record<string, number> = {};
    for (const [column, { index, unit }] of numberAt) {
      const { text: cell, column: at } = cells[index]!;
      if (cell === '' && column.optional) continue;
      const read = readNumber(cell);
      if (read === undefined) return no(noNumber(header[index]!.text, cell), at);
      const value = read * unit.factor + unit.offset;
      const doubt = rangeDoubt(column, value);
      if (doubt !== undefined) {
        const written = `${quoted(cell)} ${unit.name}`.trim();
        return no(`${column.head}: ${written} is ${doubt}${slipWords(read, unit, column)}`, at);
      }
      numbers[column.head] = value;
    }
    return [{ line, words: rowWords, numbers }];
  });
  return { rows, rejected: left.all() };
}

/** The line that names the columns, as far as it tells how cells are parted. */
const firstLine = (text: string): string => /^[^\S\n]*[^#\s].*$/m.exec(text.slice(0, 20_000))?.[0] ?? '';

const headText = (column: NumberColumn): string =>
  column.unit === '' ? column.head : `${column.head}_${column.unit.replace('/', '_')}`;

/** The unit in which a number out of range would be in it. */
function slipWords(read: number, unit: Unit, column: NumberColumn): string {
  const other = unitsOf(column).find((candidate) => {
    const value = read * candidate.factor + candidate.offset;
    return candidate !== unit && value >= column.low && value <= column.high;
  });
  return other === undefined || other.name === ''
    ? ''
    : `. As ${other.name} it would fit: if it was read in ${other.name}, write that in the head of the column`;
}
