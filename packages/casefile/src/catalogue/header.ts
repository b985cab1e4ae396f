import { UNITS } from '@tubgap/units';
import type { Issue, Problem } from '../issue.ts';
import { nameList, nearestName } from '../nearest-name.ts';
import type { QuantitySpec } from '../quantity.ts';
import type { Cell } from '../text/csv.ts';

/** A column of numbers. Its head carries the unit: `liner_in`, `liner_mm`. */
export interface Column {
  head: string;
  field: string;
  spec: QuantitySpec;
  /** Head of a column that may stand in its place. */
  instead?: string;
  /** Nothing is assumed for it: every row must have it, or what may stand in its place. */
  needed?: true;
  /** Whether a row's name stands in for it. */
  byName?: (name: string) => boolean;
}

const headOf = (column: Column, unit: string) => `${column.head}_${unit.toLowerCase().replaceAll('/', '_')}`;

/** The heads that a column may have, its usual one first. */
const headsOf = (column: Column) => UNITS[column.spec.kind].map(({ name }) => headOf(column, name));

/** The first line of a table in its usual form, as messages show it. */
export const usualHeader = (words: readonly string[], columns: readonly Column[]) => [
  ...words,
  ...columns.filter(({ instead }) => instead === undefined).map((column) => headsOf(column)[0]!),
];

/** A column of the file: of numbers with its unit, of words, or unknown. */
export interface Heading {
  cell: Cell;
  column?: Column;
  unit?: string;
}

/** What the head of a column means. */
export function headingOf(cell: Cell, columns: readonly Column[]): Heading {
  for (const column of columns) {
    const unit = UNITS[column.spec.kind].find(({ name }) => headOf(column, name) === cell.text);
    if (unit) return { cell, column, unit: unit.name };
  }
  return { cell };
}

/** Takes a fault, or a warning, about a cell. */
export type Report = (cell: Cell, path: string, problem: Problem, severity?: Issue['severity']) => void;

/**
 * Judges the first line. A heading that is wrong is told there, once: as a fault where nothing stands in for the column
 * that was meant, else as a warning. Any other heading is the shop's own business.
 */
export function checkHeader(
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
