import { writeFileSync } from 'node:fs';

/** One line of the bench's table. */
export interface Row {
  what: string;
  unit: string;
  /** Best and middle of the rounds; one number where there are no rounds. */
  best: number;
  median: number;
  /** What `ratio` is over, empty without one. */
  against: string;
  ratio: number | undefined;
  note: string;
}

const HEADS = ['what', 'unit', 'best', 'median', 'ratio', 'against', 'note'] as const;

const figure = (value: number | undefined): string => {
  if (value === undefined) return '';
  return Math.abs(value) >= 1000 ? Math.round(value).toString() : value.toPrecision(3);
};

const cells = (row: Row): string[] => [
  row.what,
  row.unit,
  figure(row.best),
  figure(row.median),
  figure(row.ratio),
  row.against,
  row.note,
];

/** The rows as text in padded columns, numbers to the right. */
export function tableText(rows: readonly Row[]): string {
  const table = [[...HEADS], ...rows.map(cells)];
  const widths = HEADS.map((_, c) => Math.max(...table.map((row) => row[c]!.length)));
  return table
    .map((row) =>
      row
        .map((cell, c) => (c >= 2 && c <= 4 ? cell.padStart(widths[c]!) : cell.padEnd(widths[c]!)))
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
}

const quoted = (cell: string): string => (/[",\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell);

/** Writes the rows as CSV, the machine in the last column of each. */
export function writeTable(file: string, machine: string, rows: readonly Row[]): void {
  const lines = [[...HEADS, 'machine'], ...rows.map((row) => [...cells(row), machine])];
  writeFileSync(file, `${lines.map((line) => line.map(quoted).join(',')).join('\n')}\n`);
}
