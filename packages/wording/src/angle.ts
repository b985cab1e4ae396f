/** Hub angle in words: '15° ahead of the top'. */
export function angleWords(radians: number): string {
  const degrees = Math.round((radians * 180) / Math.PI);
  if (degrees === 0) return 'straight up';
  return `${Math.abs(degrees)}° ${degrees > 0 ? 'ahead of' : 'behind'} the top`;
}
