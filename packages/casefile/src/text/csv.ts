import type { Problem } from '../issue.ts';

/** One cell of a table and where it begins; line and column count from 1. */
export interface Cell {
  text: string;
  line: number;
  column: number;
}

/** What is wrong with the text of a table, and where. */
export interface CsvFault {
  line: number;
  column: number;
  problem: Problem;
}

export interface Table {
  rows: Cell[][];
  faults: CsvFault[];
}

/**
 * Comma-separated values after RFC 4180, row by row, with the place of each cell, which is what a message needs and what
 * a reader of streams does not tell. Blanks around a cell are dropped; a line that is blank or begins with # is skipped;
 * a cell in quotes may hold commas, line ends and doubled quotes.
 * @param tell  gets each fault when it is met
 */
export function* csvRows(source: string, tell: (fault: CsvFault) => void): Generator<Cell[]> {
  const text = source.replace(/^\uFEFF/, '');
  let at = 0;
  let line = 1;
  let lineStart = 0;

  const endOfLine = () => {
    if (text[at] === '\r' && text[at + 1] === '\n') at += 1;
    at += 1;
    line += 1;
    lineStart = at;
  };
  const isBreak = () => text[at] === '\n' || (text[at] === '\r' && text[at + 1] === '\n');
  const fault = (where: Omit<Cell, 'text'>, reason: string, hint: string) =>
    tell({ line: where.line, column: where.column, problem: { code: 'syntax', reason, hint } });

  const plainCell = (): string => {
    const start = at;
    while (at < text.length && text[at] !== ',' && !isBreak()) at += 1;
    return text.slice(start, at).trim();
  };
  /** Goes over a stretch of text and counts its lines. */
  const passOver = (stretch: string): void => {
    const start = at;
    for (let next = stretch.indexOf('\n'); next >= 0; next = stretch.indexOf('\n', next + 1)) {
      at = start + next;
      endOfLine();
    }
    at = start + stretch.length;
  };
  const quotedCell = (place: Omit<Cell, 'text'>): string => {
    const start = at + 1;
    let end = text.indexOf('"', start);
    while (end >= 0 && text[end + 1] === '"') end = text.indexOf('"', end + 2);
    const content = text.slice(start, end < 0 ? text.length : end);
    passOver(text.slice(at, end < 0 ? text.length : end + 1));
    if (end < 0) {
      fault(place, 'this quote is never closed', 'Close it, or double a quote that belongs to the text: ""');
    } else if (plainCell() !== '') {
      fault(place, 'text follows the closing quote', 'Double a quote inside quotes: ""');
    }
    return content.replaceAll('\r\n', '\n').replaceAll('""', '"');
  };

  while (at < text.length) {
    if (text[at] === '#' && at === lineStart) {
      while (at < text.length && !isBreak()) at += 1;
      endOfLine();
      continue;
    }
    const row: Cell[] = [];
    for (;;) {
      while (text[at] === ' ' || text[at] === '\t') at += 1;
      const place = { line, column: at - lineStart + 1 };
      row.push({ ...place, text: text[at] === '"' ? quotedCell(place) : plainCell() });
      if (text[at] !== ',') break;
      at += 1;
    }
    if (row.length > 1 || row[0]?.text !== '') yield row;
    endOfLine();
  }
}

/** All rows of comma-separated values, and all that is wrong with them. */
export function readCsv(source: string): Table {
  const faults: CsvFault[] = [];
  return { rows: [...csvRows(source, (fault) => faults.push(fault))], faults };
}
