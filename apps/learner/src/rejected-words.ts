import { countLeftOut, placeText, type Reader } from '@tubgap/evidence';
import type { MeasuredFolder } from './measured-folder.ts';

/** Who reads why nothing was learned of a folder. */
export const folderReader = ({ folder }: MeasuredFolder): Reader => ({ from: 'folder', folder });

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
