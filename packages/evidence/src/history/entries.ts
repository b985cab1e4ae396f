import type { Rejected } from '../readings.ts';
import {
  ANGLE,
  CENTRE_FORWARD,
  MEASURED_GAP,
  RUNS,
  SPEED_HIGH,
  SPEED_LOW,
  TOP_THEN,
} from '../tables/columns.ts';
import { MARKED } from '../tables/mark-tables.ts';
import { type MeasuredRow, type NumberColumn, readMeasuredTable } from '../tables/measured-table.ts';
import { leftOut, quoted } from '../tables/table-text.ts';

export const HISTORY_FILE = 'history.csv';

/** Columns of a car's history, in the order in which the program writes them. */
export const HISTORY_HEADS = [
  'date',
  'entry',
  'tyre',
  'batch',
  'tub',
  'top_height_in',
  'centre_forward_in',
  'runs',
  'speed_low_mph',
  'speed_high_mph',
  'mark',
  'angle_deg',
  'measured_in',
  'note',
] as const;

/**
 * What an entry tells, in the order in which things of one day are taken to have happened: a tyre is put on and the tub moved
 * before the gaps are measured and runs made; what runs left is looked into after them.
 */
export const ENTRY_KINDS = ['tyre', 'tub', 'gap', 'runs', 'looked into'] as const;
export type EntryKind = (typeof ENTRY_KINDS)[number];

/** One dated line of a car's history; SI. */
export interface HistoryEntry {
  line: number;
  /** YYYY-MM-DD */
  date: string;
  kind: EntryKind;
  /** Of the row as it stands: words and numbers by head, left out where empty. */
  words: Readonly<Record<string, string>>;
  numbers: Readonly<Record<string, number>>;
}

/** A car's history in the order of time, whatever the order of its lines, and what of it could not be read. */
export interface History {
  entries: HistoryEntry[];
  rejected: Rejected[];
  /** Days of lines that were left out and may have told how the tub stood; empty where the day is lost too. */
  tubDoubts: string[];
}

export const WORDS = ['tyre', 'batch', 'tub', 'mark', 'note'] as const;
const optional = (column: NumberColumn): NumberColumn => ({ ...column, optional: true });
export const COLUMNS = [
  optional(RUNS),
  SPEED_LOW,
  SPEED_HIGH,
  TOP_THEN,
  CENTRE_FORWARD,
  optional(ANGLE),
  MEASURED_GAP,
];

/** What a kind of entry cannot do without. */
export const NEEDED: Readonly<Record<EntryKind, readonly string[]>> = {
  tyre: ['tyre'],
  tub: [],
  gap: ['angle', 'measured'],
  runs: ['tyre', 'runs', 'mark'],
  'looked into': ['note'],
};

/** Whether a text is a day of the calendar, YYYY-MM-DD. */
export function isDay(text: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false;
  const time = Date.parse(`${text}T00:00:00Z`);
  return Number.isFinite(time) && new Date(time).toISOString().startsWith(text);
}

/** An entry from its row, or why it is none. */
function entryOf({ line, words, numbers }: MeasuredRow): HistoryEntry | string {
  const { date = '', entry = '' } = words;
  if (!isDay(date)) return `date ${quoted(date)} is no day; write it as 2026-05-02`;
  const kind = ENTRY_KINDS.find((one) => one === entry.toLowerCase());
  if (kind === undefined) return `entry ${quoted(entry)} is not known; write ${ENTRY_KINDS.join(', ')}`;
  const told = Object.fromEntries(WORDS.flatMap((word) => (words[word] ? [[word, words[word]]] : [])));
  const lacking = NEEDED[kind].filter((head) => told[head] === undefined && numbers[head] === undefined);
  if (lacking.length > 0) return `nothing is written under ${lacking.join(' and ')}, which ${kind} must have`;
  if (kind === 'tub' && told.tub === undefined && numbers.top_height === undefined) {
    return 'an entry of the tub must say which (tub) or how high it stands (top_height)';
  }
  if (kind === 'runs' && !MARKED.has(told.mark!.toLowerCase())) {
    return `mark ${quoted(told.mark!)} is not known; write mark or none`;
  }
  const { speed_low: low, speed_high: high } = numbers;
  if (low !== undefined && high !== undefined && low > high)
    return 'the slower speed (speed_low) is above the faster one (speed_high)';
  return { line, date, kind, words: told, numbers };
}

/** The order of time; of one day by kind, then by what they say, so that the order of lines does not matter. */
function inTime(a: HistoryEntry, b: HistoryEntry): number {
  const keyOf = ({ date, kind, words, numbers }: HistoryEntry): string =>
    [date, ENTRY_KINDS.indexOf(kind), JSON.stringify([words, numbers])].join(' ');
  const [ka, kb] = [keyOf(a), keyOf(b)];
  return ka < kb ? -1 : ka > kb ? 1 : 0;
}

/** A cell of a line that makes it an entry of the tub, whatever else is wrong with it. */
const OF_TUB = /(^|[,;\t])\s*"?tub"?\s*([,;\t]|$)/i;

/** Days on which lines that were left out may have told of the tub. */
const doubtsIn = (text: string, rejected: readonly Rejected[]): string[] => {
  const lines = text.split('\n');
  return rejected.flatMap(({ line }) => {
    const written = lines[line - 1] ?? '';
    if (line > 0 && !OF_TUB.test(written)) return [];
    const day = /\d{4}-\d{2}-\d{2}/.exec(written)?.[0] ?? '';
    return [isDay(day) ? day : ''];
  });
};

/**
 * Reads a car's history. A damaged entry is named and left out, the rest goes on; two that tell the tub's place differently on
 * one day are both left out, for nobody can tell which came last.
 */
export function readHistory(text: string): History {
  const table = readMeasuredTable(HISTORY_FILE, text, ['date', 'entry'], WORDS, COLUMNS);
  const left = leftOut(HISTORY_FILE);
  const entries: HistoryEntry[] = [];
  for (const row of table.rows) {
    const entry = entryOf(row);
    if (typeof entry === 'string') left.add(row.line, entry);
    else entries.push(entry);
  }
  const placeOf = ({ words, numbers }: HistoryEntry): string =>
    JSON.stringify([words.tub, numbers.top_height, numbers.centre_forward]);
  const tubs = entries.filter(({ kind }) => kind === 'tub');
  const apart = tubs.filter((one) =>
    tubs.some((other) => other.date === one.date && placeOf(other) !== placeOf(one)),
  );
  for (const { line, date } of apart) {
    left.add(line, `another entry tells of another place of the tub on ${date}; keep the last of that day`);
  }
  const rejected = [...table.rejected, ...left.all()].sort((a, b) => a.line - b.line);
  return {
    entries: entries.filter((entry) => !apart.includes(entry)).sort(inTime),
    rejected,
    tubDoubts: doubtsIn(text, rejected),
  };
}
