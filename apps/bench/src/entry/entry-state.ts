import { enteredHistory, type NewEntry, readHistory } from '@tubgap/evidence';
import { z } from 'zod';

/** What is being entered of one car: its history as it was opened, and the entries that come to it. */
export interface EntryState {
  /** Its name in the book. */
  car: string;
  /** Text of its history; left out: none was opened. */
  history?: string | undefined;
  entries: readonly NewEntry[];
}

/** Letters of a history, of which a car has one for its life, that a browser keeps. */
const MOST = 200_000;
const text = z.string().max(400);
const entry = z.object({
  date: text,
  kind: text,
  words: z.record(text, text),
  numbers: z.record(text, z.number()),
});
const state = z.object({
  car: text,
  history: z.string().max(MOST).optional(),
  entries: z.array(entry).max(50),
});

/** What `entriesText` wrote, as far as a reader takes it; undefined when it is nothing of the kind. */
export function readEntries(written: string | undefined): EntryState | undefined {
  try {
    const read = state.safeParse(JSON.parse(written ?? ''), { jitless: true });
    return read.success && 'text' in allEntered(read.data) ? read.data : undefined;
  } catch {
    return undefined;
  }
}

/** What a browser may keep of it; undefined where there is nothing to be kept, or too much. */
export function entriesText(own: EntryState): string | undefined {
  if (own.entries.length === 0 || (own.history?.length ?? 0) > MOST) return undefined;
  return JSON.stringify(own);
}

/** The history with all entries in it. */
export function allEntered({
  history,
  entries,
}: Pick<EntryState, 'history' | 'entries'>): ReturnType<typeof enteredHistory> {
  return entries.reduce<ReturnType<typeof enteredHistory>>(
    (before, one) => ('text' in before ? enteredHistory(before.text, one) : before),
    { text: history ?? '' },
  );
}

/** The rows that were added, in the columns of the history. */
export function addedRows(state: EntryState): string[] {
  const entered = allEntered(state);
  return 'text' in entered && state.entries.length > 0
    ? entered.text.trimEnd().split('\n').slice(-state.entries.length)
    : [];
}

/** Names that a history has for tyres and tubs already. */
export function namesIn(history: string | undefined): { tyres: string[]; tubs: string[] } {
  const entries = history === undefined ? [] : readHistory(history).entries;
  const of = (head: string): string[] => [
    ...new Set(entries.flatMap(({ words }) => (words[head] ? [words[head]] : []))),
  ];
  return { tyres: of('tyre'), tubs: of('tub') };
}
