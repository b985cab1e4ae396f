import type { NumberColumn } from '../tables/measured-table.ts';
import { unitOfHead } from '../tables/measured-table.ts';
import { COLUMNS, HISTORY_HEADS, WORDS } from './entries.ts';

/** What is to be entered: the day, what it is, and what it tells; words and numbers by head, numbers in SI. */
export interface NewEntry {
  date: string;
  kind: string;
  words: Readonly<Record<string, string>>;
  numbers: Readonly<Record<string, number>>;
}

/** A cell as CSV has it; one that a spreadsheet would run as a formula is written as text. */
function cellText(text: string): string {
  const plain =
    /^[=+@\t\r\uff1d\uff0b\uff0d\uff20-]/.test(text) && !Number.isFinite(Number(text)) ? `'${text}` : text;
  return /[",\n\r]/.test(plain) ? `"${plain.replaceAll('"', '""')}"` : plain;
}

const columnOf = (head: string): NumberColumn | undefined =>
  COLUMNS.find((column) => unitOfHead(head, column) !== undefined);

/** A number in the unit of its column's head, with no more digits than it has. */
function numberText(value: number, head: string, column: NumberColumn): string {
  const { factor, offset } = unitOfHead(head, column)!;
  return String(Number(((value - offset) / factor).toPrecision(10)));
}

/**
 * A history with one more entry in its last line, in the columns and units that its first line names. A history that is not
 * there yet begins with the program's own.
 * @returns the text, or the heads that its first line lacks for this entry
 */
export function withEntry(
  text: string | undefined,
  entry: NewEntry,
): { text: string } | { lacking: string[] } {
  const before = text === undefined || text.trim() === '' ? `${HISTORY_HEADS.join(',')}\n` : text;
  const first = /^[^\S\n]*[^#\s].*$/m.exec(before)![0];
  const mark = [',', ';', '\t'].find((one) => first.includes(one)) ?? ',';
  const heads = first.split(mark).map((head) => head.trim().replace(/^"|"$/g, ''));
  const told: Record<string, string> = { date: entry.date, entry: entry.kind, ...entry.words };
  const left = new Set([...Object.keys(told), ...Object.keys(entry.numbers)]);
  const cells = heads.map((head) => {
    const word = ['date', 'entry', ...WORDS].find((one) => one === head.toLowerCase());
    const column = columnOf(head);
    const name = word ?? column?.head;
    if (name === undefined || !left.has(name)) return '';
    left.delete(name);
    if (word !== undefined) return cellText(told[word]!);
    return numberText(entry.numbers[name]!, head, column!);
  });
  if (left.size > 0) return { lacking: [...left] };
  return { text: `${before}${before.endsWith('\n') ? '' : '\n'}${cells.join(mark)}\n` };
}
