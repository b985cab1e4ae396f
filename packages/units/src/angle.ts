/** An angle in degrees. */
export const toDegrees = (radians: number): number => (radians * 180) / Math.PI;

/** An angle to the nearest whole degree. */
export const wholeDegrees = (radians: number): number => Math.round(toDegrees(radians));

/** Hub angle as the heading of a gap: 'straight up', '15° ahead', '30° behind'. */
export function angleHeading(radians: number): string {
  const degrees = wholeDegrees(radians);
  if (degrees === 0) return 'straight up';
  return `${Math.abs(degrees)}° ${degrees > 0 ? 'ahead' : 'behind'}`;
}

/** The same in a sentence: '15° ahead of the top'. */
export function angleWords(radians: number): string {
  const degrees = wholeDegrees(radians);
  if (degrees === 0) return 'straight up';
  return `${angleHeading(radians)}${degrees > 0 ? ' of' : ''} the top`;
}
