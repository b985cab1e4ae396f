import { checkSummary } from '../check-words.ts';
import type { Conflict } from '../conflicts.ts';
import type { MarkReading } from '../readings.ts';
import { conflictText } from '../settled-belief.ts';
import { runMarkText, touchPlace, touchText } from '../touched.ts';
import type { Refusal } from './recipe.ts';
import type { Stops } from './stops.ts';

/** Who is told: somebody with a folder of measurements, or with the page on which they were typed in. */
export type Reader =
  | { from: 'folder'; folder: string }
  /** @param named  a reading by where it stands on the page */
  | { from: 'page'; named: (reading: string) => string };

/** What stops the car, and why nothing was learned; sentences. */
export interface RefusalWords {
  stops: string[];
  why: string[];
}

/** Readings at odds, each with what speaks against it. */
export const conflictLines = (conflicts: readonly Conflict[], reader: Reader): string[] =>
  conflicts.map(conflictText).map(({ reading, against }) => {
    const flat = against.replace(/\s+/g, ' ');
    return reader.from === 'page' ? `${reader.named(reading)}: ${flat}.` : `${reading}: ${flat}`;
  });

const why = (...lines: string[]): RefusalWords => ({ stops: [], why: lines });

function forFolder(refusal: Refusal, reader: Reader & { from: 'folder' }): RefusalWords {
  switch (refusal.kind) {
    case 'nothing measured':
      return why(
        `${reader.folder}: there is nothing to learn from. Files are known by their names: rollout.csv, tyre-mass.csv, loaded-radius.csv, travel.csv, check-sheet.csv, marks.csv and runs.csv with as-built.csv, and run-log-….csv.`,
      );
    case 'nothing uncertain':
      return why(
        'The case takes everything as exact that these measurements speak of: there is nothing to learn. Give these inputs laws first.',
      );
    case 'at odds':
      return why(
        'Evidence and assumptions disagree; nothing was learned:',
        ...conflictLines(refusal.conflicts, reader),
        'Read these again: unit, pressure, tyre, which tub. If a reading is right, the case is not: widen or move the law that it speaks against.',
      );
    case 'impossible rub':
      return why(
        'Nothing else is learned from this folder before the cause of that rub is found: what the case leaves out may act on every reading.',
      );
    case 'chains apart':
      return why(
        'The sampler’s chains do not agree: these measurements leave several different cars possible. Nothing was learned.',
        'Leave out the files that say least and try again, or add a measurement: a run log with a long roll-out says most.',
      );
    case 'nothing moved':
      return why('These measurements agree with the case: they change nothing, so nothing was learned.');
  }
}

function forPage(refusal: Refusal, reader: Reader & { from: 'page' }): RefusalWords {
  const apart = (conflicts: readonly Conflict[]): string[] => [
    'These measures do not go together with the case or with each other:',
    ...conflictLines(conflicts, reader),
    'Measure these again: unit, side, pressure, tyre, and where the tub stands. If a measure is right, the case is not.',
  ];
  switch (refusal.kind) {
    case 'nothing measured':
      return why('No measure that was typed in can be used.');
    case 'nothing uncertain':
      return why('The case takes everything as exact that these measures speak of.');
    case 'at odds':
      return why(...apart(refusal.conflicts));
    case 'impossible rub':
      // A rub that no car of the case makes is the most important reading there is.
      return {
        stops: [
          'the tyre has touched where nothing in this case lets it. Do not run. Look for what the model does not know: a mount that gave, a tub or body that flexed, tyre shake, a landing, another tyre or another case. Save what was measured and run tubgap learn: it says by how much the top must go up by that mark alone',
        ],
        why: apart(refusal.conflicts),
      };
    case 'chains apart':
      return why(
        'These measures leave several different cars possible: add another gap, or learn from a folder with tubgap learn.',
      );
    case 'nothing moved':
      return why('These measures agree with the case: they change nothing, so nothing was learned.');
  }
}

/** Why nothing was learned, with what to do, for whoever measured. */
export const refusalWords = (refusal: Refusal, reader: Reader): RefusalWords =>
  reader.from === 'folder' ? forFolder(refusal, reader) : forPage(refusal, reader);

/**
 * What stops the car, the first thing that is read: sentences without a full stop; none when nothing does.
 * @param placed  a mark in words
 */
export function stopSentences(
  { checks, touched, marked, rubs }: Stops,
  placed: (mark: MarkReading) => string = touchPlace,
): string[] {
  const impossible = new Set(rubs.map(({ mark }) => mark));
  const marks = touched.filter((mark) => !impossible.has(mark));
  return [
    ...(checks?.whole === 'fail' ? [`the check sheet: ${checkSummary(checks)}`] : []),
    ...(rubs.length > 0
      ? [`a rub that the case calls impossible: ${rubs.map(({ mark }) => placed(mark)).join(', ')}`]
      : []),
    ...(marks.length > 0 ? [touchText(marks.map(placed))] : []),
    ...(marked.length > 0 ? [runMarkText(marked)] : []),
  ];
}
