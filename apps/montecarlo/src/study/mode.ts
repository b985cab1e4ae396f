import { InvalidArgumentError } from '@commander-js/extra-typings';

/** How several inputs are put together: every combination, each alone, or their first values, their second values and so on. */
export type Mode = 'grid' | 'one at a time' | 'points';

/** The mode that a word means: 'grid', 'one at a time', 'one-at-a-time', 'points'; undefined for none. */
export function readMode(word: string): Mode | undefined {
  const plain = word.trim().toLowerCase().replaceAll('-', ' ');
  return plain === 'grid' || plain === 'one at a time' || plain === 'points' ? plain : undefined;
}

/** Reads the mode of a command line. */
export function modeOption(word: string): Mode {
  const mode = readMode(word);
  if (mode !== undefined) return mode;
  throw new InvalidArgumentError(`read "${word}"; allowed are grid, one-at-a-time and points.`);
}
