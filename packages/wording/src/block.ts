import type { ReportLine } from './verdict.ts';

/** Figures for a terminal: names to the left, figures to the right. */
export interface FigureTable {
  kind: 'table';
  head: readonly string[];
  rows: readonly (readonly string[])[];
  /** What is said of each row, in words; none: nothing is. */
  notes?: readonly string[];
  /** Whether the first column names the rows. */
  named: boolean;
}

/** A piece of what a terminal shows; how wide that is, and whether it can be bold, is known where it is printed. */
export type Block =
  | { kind: 'line'; text: string; strong: boolean }
  | { kind: 'row'; label: string; text: string; strong: boolean }
  | { kind: 'paragraph'; text: string }
  | FigureTable;

/** A row of a decision: its label, then its text. */
export const row = (label: string, text: string): Block => ({ kind: 'row', label, text, strong: false });

/** A row that is read first, aloud where need be. */
export const strongRow = (label: string, text: string): Block => ({ kind: 'row', label, text, strong: true });

/** Lines of a report, a row each. */
export const rowsOf = (lines: readonly ReportLine[]): Block[] =>
  lines.map(({ label, text }) => row(label, text));

/** A line by itself, and an empty one. */
export const line = (text: string): Block => ({ kind: 'line', text, strong: false });
export const heading = (text: string): Block => ({ kind: 'line', text, strong: true });
export const BLANK: Block = line('');

/** Words that run over as many lines as they take. */
export const paragraph = (text: string): Block => ({ kind: 'paragraph', text });

/** A table whose first column names the rows. */
export const figureTable = (
  head: readonly string[],
  rows: readonly (readonly string[])[],
  notes?: readonly string[],
): Block => ({ kind: 'table', head, rows, named: true, ...(notes && { notes }) });
