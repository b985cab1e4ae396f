import type { Problem } from '../issue.ts';

/** One cell of a table and where it begins; line and column count from 1. */
export interface Cell {
  text: string;
  line: number;
  column: number;
}

export interface Table {
  rows: Cell[][];
  faults: { line: number; column: number; problem: Problem }[];
}

/**
 * Comma-separated values after RFC 4180, with the place of each cell, which is what a message needs and what a reader
 * of streams does not tell. Blanks around a cell are dropped; a line that is blank or begins with # is skipped; a cell
 * in quotes may hold commas, line ends and doubled quotes.
 */
export function readCsv(source: string): Table {
  const text = source.replace(/^\uFEFF/, '');
  const table: Table = { rows: [], faults: [] };
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
    table.faults.push({ line: where.line, column: where.column, problem: { code: 'syntax', reason, hint } });

  const plainCell = (): string => {
    const start = at;
    while (at < text.length && text[at] !== ',' && !isBreak()) at += 1;
    return text.slice(start, at).trim();
  };
  const quotedCell = (place: Omit<Cell, 'text'>): string => {
    let content = '';
    at += 1;
    while (at < text.length) {
      if (text[at] !== '"') {
        content += isBreak() ? '\n' : text[at];
        if (isBreak()) endOfLine();
        else at += 1;
      } else if (text[at + 1] === '"') {
        content += '"';
        at += 2;
      } else {
        at += 1;
        if (plainCell() !== '')
          fault(place, 'text follows the closing quote', 'Double a quote inside quotes: ""');
        return content;
      }
    }
    fault(place, 'this quote is never closed', 'Close it, or double a quote that belongs to the text: ""');
    return content;
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
    if (row.length > 1 || row[0]?.text !== '') table.rows.push(row);
    endOfLine();
  }
  return table;
}
