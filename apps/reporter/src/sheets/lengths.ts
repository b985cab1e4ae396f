import { onTape, sixteenths, wholeMarks } from '@tubgap/units';

/** A limit to pass: on the tape rounded up, in millimetres as it is, to the next tenth: '3 1/4 in (82.1 mm)'. */
export const limitText = (metres: number): string =>
  `${sixteenths(metres, 'up')} (${(wholeMarks(metres * 1e4, 'up') / 10).toFixed(1)} mm)`;

/** A tolerance, never rounded up; 'none' where nothing is left of it. */
export function toleranceText(metres: number): string {
  const kept = onTape(metres, 'down');
  return kept <= 0 ? 'none' : sixteenths(kept, 'down');
}
