import { type CsvFault, dateProblem } from '@tubgap/casefile';
import { harmless } from '@tubgap/units';
import type { Rejected } from '../readings.ts';

/** Letters of a table that is typed by hand, and of a logger's file: minutes at a thousand lines a second. */
export const LARGEST_TABLE = 1_000_000;
export const LARGEST_LOG = 100_000_000;

/** Letters of a cell that are shown. */
const SHOWN = 40;
/** What a cell holds, as a message may show it. */
const shown = (text: string): string =>
  `${harmless(text.slice(0, SHOWN))}${text.length > SHOWN ? '\u2026' : ''}`;
export const quoted = (text: string): string => `"${shown(text)}"`;

/** Why a text cannot be a table at all, with what to do; undefined when it may be one. */
export function noTable(text: string, most: number): string | undefined {
  if (text.length > most) {
    return `the file has ${text.length} letters; at most ${most} are read. Cut out what is not needed`;
  }
  const zero = text.indexOf('\0');
  if (zero < 0) return undefined;
  const line = text.slice(0, zero).split('\n').length;
  return `line ${line} holds a zero byte: this is no text, or one in UTF-16 without its mark. Save it again as CSV in UTF-8`;
}

/**
 * A table's text with commas between its cells: some programs write semicolons, with commas before decimals, or tabs.
 * @param sample  beginning of the text, from which that is told
 */
export function withCommas(text: string, sample: string): string {
  const count = (mark: string): number => sample.split(mark).length - 1;
  const [commas, semicolons, tabs] = [count(','), count(';'), count('\t')];
  if (semicolons > 0 && semicolons >= 0.5 * commas) {
    return text.replace(/(\d),(\d)/g, '$1.$2').replaceAll(';', ',');
  }
  return tabs > commas ? text.replaceAll('\t', ',') : text;
}

/** That a cell is no number, with what to do. */
export function noNumber(head: string, cell: string): string {
  if (cell === '') return `nothing is written under ${harmless(head)}`;
  const date = dateProblem(cell);
  const reason = date
    ? `${date.reason}. ${date.hint}`
    : 'is no number; write digits alone, with a point before decimals, the unit in the head';
  return `${harmless(head)}: ${quoted(cell)}${date ? ':' : ''} ${reason}`;
}

/** Faults of one file that are listed each by itself. */
const MOST_LISTED = 200;

/** Lines of one file that are left out: the first each by itself, the rest together. */
export interface LeftOut {
  add: (line: number, reason: string, column?: number) => void;
  fault: (fault: CsvFault) => void;
  all: () => Rejected[];
}

export function leftOut(file: string): LeftOut {
  const listed: Rejected[] = [];
  let more = 0;
  let next = 0;
  const add: LeftOut['add'] = (line, reason, column) => {
    if (listed.length < MOST_LISTED) {
      listed.push({ file, line, reason, ...(column === undefined ? {} : { column }) });
      return;
    }
    if (more++ === 0) next = line;
  };
  return {
    add,
    fault: ({ line, column, problem: { reason, hint } }) =>
      add(line, hint === undefined ? reason : `${reason}. ${hint}`, column),
    all: () =>
      more === 0
        ? listed
        : [
            ...listed,
            { file, line: next, reason: `this and ${more - 1} lines after it have faults too`, lines: more },
          ],
  };
}
