import { type Figures, wholeMarks } from '@tubgap/units';

/**
 * A limit to pass, rounded up: on the tape with what it is in millimetres to the next tenth, '3 1/4 in (82.1 mm)', for one
 * sixteenth is much; in millimetres alone, '83 mm'.
 */
export const limitText = (metres: number, { units, length }: Figures): string =>
  units === 'mm'
    ? length(metres, 'up')
    : `${length(metres, 'up')} (${(wholeMarks(metres * 1e4, 'up') / 10).toFixed(1)} mm)`;

/** A tolerance, never rounded up; 'none' where nothing is left of it. */
export function toleranceText(metres: number, { length, onTape }: Figures): string {
  const kept = onTape(metres, 'down');
  return kept <= 0 ? 'none' : length(kept, 'down');
}
