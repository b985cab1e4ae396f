import { insideReserve, touchPlace, touchText } from '@tubgap/evidence';
import type { MeasuredFolder } from './measured-folder.ts';

/** Marks of touching where the gap to be kept should be, in words; undefined when there are none. @param reserve  m */
export function touchWords({ readings }: MeasuredFolder, reserve: number): string | undefined {
  const touched = insideReserve(readings.marks, reserve);
  if (touched.length === 0) return undefined;
  return touchText(touched.map((mark) => `${touchPlace(mark)} (marks.csv:${mark.line})`));
}
