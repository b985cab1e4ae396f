import type { Rejected } from '../readings.ts';
import { readHistory } from './entries.ts';
import { type NewEntry, withEntry } from './history-row.ts';

/** A history with one more entry in it, or why that cannot be: heads that its first line lacks, or what a reader says. */
export type Entered = { text: string } | { lacking: string[] } | { problems: string[] };

const sameRow = (a: Rejected, b: Rejected): boolean => a.line === b.line && a.reason === b.reason;

/**
 * Puts an entry into a history, if whoever reads that would take it. What was wrong before is no fault of the entry.
 * @param text  left out: there is no history yet
 * @param rejectedOf  what a reader of the whole history leaves out; left out: what can be told without the car's case
 */
export function enteredHistory(
  text: string | undefined,
  entry: NewEntry,
  rejectedOf: (history: string) => readonly Rejected[] = (history) => readHistory(history).rejected,
): Entered {
  const added = withEntry(text, entry);
  if ('lacking' in added) return added;
  const before = text === undefined ? [] : rejectedOf(text);
  const problems = rejectedOf(added.text).filter((one) => !before.some((other) => sameRow(one, other)));
  return problems.length === 0 ? added : { problems: problems.map(({ reason }) => reason) };
}
