import {
  conflictLines,
  placeText,
  type Reader,
  type Rejected,
  refusalWords,
  stopSentences,
} from '@tubgap/evidence';
import type { Learnt } from '../worker/learning.ts';

/** Texts of what was typed in, by file name. */
export type TypedTables = Readonly<Record<string, string>>;

/** What is said of a lesson, sentences. */
export interface LessonLines {
  /** What stops the car. */
  stops: string[];
  /** Readings that were left out or are strained. */
  remarks: string[];
  /** Why nothing was learned; empty when something was. */
  refused: string[];
}

/** A reading by what stands on the page, not by the line of a file that nobody has saved yet. */
const asTyped = (reading: string): string =>
  reading
    .replace(/^marks\.csv:(\d+), /, (_, line: string) => `Mark ${Number(line) - 1}, `)
    .replace(/^check-sheet\.csv:\d+, /, 'Gap of ');

/** Where on the page something stands that was left out. */
function typedPlace(one: Rejected, tables: TypedTables): string {
  const cells = (tables[one.file] ?? '').split('\n')[one.line - 1]?.split(',') ?? [];
  if (one.line > 1 && one.file === 'marks.csv') return `Mark ${one.line - 1}`;
  if (one.line > 1 && one.file === 'check-sheet.csv') return `Gap at ${cells[1]}° ${cells[0]}`;
  return placeText(one);
}

/** Puts what came of a lesson into words. @param tables  that it was learned from */
export function lessonLines({ stops, rejected, result }: Learnt, tables: TypedTables): LessonLines {
  const reader: Reader = { from: 'page', named: asTyped };
  const words = 'refusal' in result ? refusalWords(result.refusal, reader) : { stops: [], why: [] };
  return {
    stops: [...stopSentences(stops), ...words.stops].map((sentence) => `STOP: ${sentence}.`),
    remarks: [
      ...rejected.map((one) => `${typedPlace(one, tables)} left out: ${one.reason}`),
      ...('taught' in result ? conflictLines(result.taught.conflicts, reader) : []),
    ],
    refused: words.why,
  };
}
