import { conflictText, countLeftOut, placeText } from '@tubgap/evidence';
import type { MeasuredFolder } from './measured-folder.ts';
import type { Refusal } from './outcome.ts';

/** Rows left out that are shown where nothing is written. */
const MOST_SHOWN = 20;

/** Rows that were left out, each with place and reason. */
export function rejectedLines({ rejected }: MeasuredFolder): string[] {
  const more = countLeftOut(rejected.slice(MOST_SHOWN));
  return [
    ...rejected.slice(0, MOST_SHOWN).map((one) => `${placeText(one)}  left out: ${one.reason}`),
    ...(more === 0 ? [] : [`and ${more} more left out`]),
  ];
}

/** Why nothing was learned, in lines, with what to do. */
export function refusalLines(refusal: Refusal): string[] {
  switch (refusal.kind) {
    case 'nothing measured':
      return [
        `${refusal.folder}: there is nothing to learn from. Files are known by their names: rollout.csv, tyre-mass.csv, loaded-radius.csv, travel.csv, check-sheet.csv, marks.csv with as-built.csv, and run-log-….csv.`,
      ];
    case 'nothing uncertain':
      return [
        'The case takes everything as exact that these measurements speak of: there is nothing to learn. Give these inputs laws first.',
      ];
    case 'at odds':
      return [
        'Evidence and assumptions disagree; nothing was learned:',
        ...refusal.conflicts
          .map(conflictText)
          .map(({ reading, against }) => `${reading}: ${against.replace(/\s+/g, ' ')}`),
        'Read these again: unit, pressure, tyre, which tub. If a reading is right, the case is not: widen or move the law that it speaks against.',
      ];
    case 'impossible rub':
      return [
        'Nothing else is learned from this folder before the cause of that rub is found: what the case leaves out may act on every reading.',
      ];
    case 'chains apart':
      return [
        'The sampler’s chains do not agree: these measurements leave several different cars possible. Nothing was learned.',
        'Leave out the files that say least and try again, or add a measurement: a run log with a long roll-out says most.',
      ];
  }
}
