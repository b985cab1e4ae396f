import { harmless } from '@tubgap/units';
import Table from 'cli-table3';
import stringWidth from 'fast-string-width';
import type { FigureTable } from '../block.ts';
import { wrapped } from './wrapped.ts';

/** Columns between two columns, those that a note takes at least and at most, and what it is moved in by under its row. */
const APART = 2;
const LEAST_NOTE = 24;
const MOST_NOTE = 44;
const MOVED_IN = 4;

/** Head and all else of a table, a line each. */
interface Lines {
  head: string[];
  rest: string[];
}

const widest = (texts: readonly string[]): number => Math.max(0, ...texts.map((text) => stringWidth(text)));
const sum = (widths: readonly number[]): number => widths.reduce((total, width) => total + width, 0);

/** Columns as narrow as cells and the words of their heads allow; those heads in one line that there is room for. */
function columnWidths(
  head: readonly string[],
  rows: readonly (readonly string[])[],
  width: number,
): number[] {
  const widths = head.map((name, c) =>
    Math.max(widest(name.split(' ')), widest(rows.map((cells) => cells[c] ?? ''))),
  );
  head.forEach((name, c) => {
    const wider = stringWidth(name);
    const spare = width - sum(widths) - APART * (widths.length - 1);
    if (wider > widths[c]! && wider - widths[c]! <= spare) widths[c] = wider;
  });
  return widths;
}

/** Rows of cells in columns of given widths, without a border; the first column and a note to the left. */
function inColumns(rows: readonly (readonly string[])[], widths: readonly number[], note: boolean): string[] {
  const none = [
    'top',
    'top-mid',
    'top-left',
    'top-right',
    'bottom',
    'bottom-mid',
    'bottom-left',
    'bottom-right',
  ];
  const between = ['left', 'left-mid', 'mid', 'mid-mid', 'right', 'right-mid'];
  const table = new Table({
    chars: {
      ...Object.fromEntries([...none, ...between].map((name) => [name, ''])),
      middle: ' '.repeat(APART),
    },
    style: { head: [], border: [], 'padding-left': 0, 'padding-right': 0 },
    colWidths: [...widths],
    colAligns: widths.map((_, c) => (c === 0 || (note && c === widths.length - 1) ? 'left' : 'right')),
    wordWrap: true,
  });
  table.push(...rows.map((cells) => [...cells]));
  return table
    .toString()
    .split('\n')
    .map((line) => line.trimEnd());
}

/** A table row by row, a figure a line, where its columns do not fit side by side. */
function stacked({ head, rows, notes, named }: FigureTable, width: number): Lines {
  const label = widest(head.slice(named ? 1 : 0));
  const rest = rows.flatMap((cells, r) => {
    const figures = head.flatMap((name, c) =>
      (named && c === 0) || (cells[c] ?? '') === '' ? [] : [`    ${name.padEnd(label)}  ${cells[c]}`],
    );
    const note = notes?.[r] ?? '';
    return [
      ...(named ? [`  ${cells[0]}`] : []),
      ...figures,
      ...(note === '' ? [] : wrapped(note, width - MOVED_IN).map((line) => `    ${line}`)),
    ];
  });
  return { head: [], rest };
}

/** A table for so many columns: figures side by side under one rule, notes beside or under their rows; else stacked. */
export function tableLines(given: FigureTable, width: number): Lines {
  const head = given.head.map(harmless);
  const rows = given.rows.map((cells) => cells.map(harmless));
  const notes = given.notes?.map(harmless);
  const table: FigureTable = { ...given, head, rows, ...(notes && { notes }) };
  const widths = columnWidths(head, rows, width);
  const taken = sum(widths) + APART * (widths.length - 1);
  if (taken > width) return stacked(table, width);
  const left = width - taken - APART;
  const beside = notes !== undefined && left >= LEAST_NOTE;
  const all = beside ? [...widths, Math.min(left, MOST_NOTE)] : widths;
  const cellsOf = (cells: readonly string[], note: string): string[] =>
    beside ? [...cells, note] : [...cells];
  const rule = widths.map((each) => '─'.repeat(each));
  return {
    head: inColumns([cellsOf(head, '')], all, beside),
    rest: [
      ...inColumns([cellsOf(rule, '')], all, beside),
      ...rows.flatMap((cells, r) => {
        const note = notes?.[r] ?? '';
        return [
          ...inColumns([cellsOf(cells, note)], all, beside),
          ...(beside || note === ''
            ? []
            : wrapped(note, width - MOVED_IN).map((line) => `${' '.repeat(MOVED_IN)}${line}`)),
        ];
      }),
    ],
  };
}
