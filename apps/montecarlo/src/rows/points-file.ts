import { createReadStream } from 'node:fs';
import type { Case } from '@tubgap/casefile';
import { BAD_INPUT, stop } from '@tubgap/casefile/command-line';
import type { GivenRun, RowInput } from '@tubgap/simulation';
import { BLOCK } from '@tubgap/statistics';
import { formatQuantity, readNumber, type Unit } from '@tubgap/units';
import { parse } from 'fast-csv';
import { type Meaning, meaningsOf } from './points-heads.ts';

/** A row that was left out. */
export interface PointFault {
  /** From 1, the line of the names not counted. */
  row: number;
  column: string;
  reason: string;
}

/** Some rows of a table of points, those with a fault left out. */
export interface PointBlock {
  runs: GivenRun[];
  /** Number of each in the table, from 1, and its cells of columns that are not the program's. */
  rows: { row: number; carried: string[] }[];
  faults: PointFault[];
}

/** What the first line of a table of points means. */
export interface PointHeads {
  /** Columns that are carried along, by their names. */
  carried: string[];
}

/**
 * Reads a table of points as it streams in: one row a run, a column an input by its path and unit. What has no column stands
 * at its middle; a column that is not known is carried along, but for those of an answer, which are worked out anew.
 * @param answers  names of columns that the answer has itself
 * @param begin  told once what the first line means
 * @throws Stop when the table cannot be read
 */
export async function* readPoints(
  file: string,
  source: Case,
  inputs: readonly RowInput[],
  answers: ReadonlySet<string>,
  begin: (heads: PointHeads) => void,
): AsyncGenerator<PointBlock> {
  let meanings: Meaning[] | undefined;
  let header: string[] = [];
  let kept: number[] = [];
  let row = 0;
  let block: PointBlock = { runs: [], rows: [], faults: [] };
  const names = source.tyres.map(({ name }) => name);
  const fault = (column: string, reason: string): undefined => {
    block.faults.push({ row, column, reason });
    return undefined;
  };
  /** A cell's number in SI; undefined, with its fault told, where it has none. */
  const numberIn = (cell: string, head: string, { factor, offset }: Unit): number | undefined => {
    const read = readNumber(cell);
    if (read === undefined)
      return fault(
        head,
        `read "${cell.slice(0, 40)}"; a number is needed, its unit stands in the name of the column`,
      );
    return factor === 1 && offset === 0 ? read : read * factor + offset;
  };
  const readRow = (cells: readonly string[]): void => {
    const values = new Map<number, number>();
    let axleHeight: number | undefined;
    let tyre = 0;
    const before = block.faults.length;
    if (cells.length !== header.length) {
      fault('', `it has ${cells.length} cells, the first line names ${header.length} columns`);
      return;
    }
    meanings!.forEach((meaning, c) => {
      const cell = cells[c]!.trim();
      if (meaning.is === 'carried') return;
      if (meaning.is === 'tyre') {
        tyre = names.indexOf(cell);
        if (tyre < 0) fault('tyre', `read "${cell.slice(0, 40)}"; the case runs ${names.join(', ')}`);
        return;
      }
      if (cell === '') return;
      const value = numberIn(cell, header[c]!, meaning.unit);
      if (value === undefined) return;
      if (meaning.is === 'axle') axleHeight = value;
      else {
        const { low, high, label, kind } = inputs[meaning.input]!;
        if (!(value >= low && value <= high)) {
          const range = `${formatQuantity(low, kind, meaning.unit.name)} to ${formatQuantity(high, kind, meaning.unit.name)}`;
          fault(header[c]!, `read "${cell}"; ${label} of a run may be ${range}`);
        }
        values.set(meaning.input, value);
      }
    });
    if (block.faults.length > before) return;
    block.runs.push({ tyre, values, axleHeight });
    block.rows.push({ row, carried: kept.map((c) => cells[c]!) });
  };
  const stream = createReadStream(file, 'utf8');
  const rows = stream.pipe(parse({ headers: false, ignoreEmpty: true, comment: '#' }));
  stream.on('error', (error) => rows.destroy(error));
  try {
    for await (const cells of rows as AsyncIterable<string[]>) {
      if (meanings === undefined) {
        header = cells.map((cell) => cell.replace(/^\uFEFF/, '').trim());
        meanings = meaningsOf(file, header, inputs, answers);
        kept = meanings.flatMap(({ is }, c) => (is === 'carried' && !answers.has(header[c]!) ? [c] : []));
        begin({ carried: kept.map((c) => header[c]!) });
        if (names.length > 1 && !meanings.some(({ is }) => is === 'tyre')) {
          stop(
            `${file}:1: a column tyre must say which tyre each row runs: ${names.join(' or ')}.`,
            BAD_INPUT,
          );
        }
        continue;
      }
      row++;
      readRow(cells);
      if (block.runs.length + block.faults.length >= BLOCK) {
        yield block;
        block = { runs: [], rows: [], faults: [] };
      }
    }
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'ENOENT' || code === 'EISDIR' || code === 'EACCES') {
      stop(`${file}: cannot be read (${code}). Give the path of a table of points (CSV).`, BAD_INPUT);
    }
    if (error instanceof Error && 'exitCode' in error) throw error;
    stop(`${file}: row ${row + 1} cannot be read: ${(error as Error).message.slice(0, 200)}.`, BAD_INPUT);
  }
  if (meanings === undefined) stop(`${file}: is empty; its first line names the columns.`, BAD_INPUT);
  if (block.runs.length + block.faults.length > 0) yield block;
}
