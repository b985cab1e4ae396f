const counted = (count: number, word: string): string => `${count} ${count === 1 ? word : `${word}s`}`;

/** About how long something takes, in words. */
export function durationText(seconds: number): string {
  if (seconds < 90) return counted(Math.max(5, Math.ceil(seconds / 5) * 5), 'second');
  if (seconds < 90 * 60) return counted(Math.ceil(seconds / 60), 'minute');
  if (seconds < 48 * 3600) return counted(Math.ceil(seconds / 3600), 'hour');
  return counted(Math.ceil(seconds / (24 * 3600)), 'day');
}

/** So many cores of this machine's kind, in words. */
export const coresText = (cores: number): string =>
  cores === 1 ? 'one core like this one' : `${cores} cores like these`;
