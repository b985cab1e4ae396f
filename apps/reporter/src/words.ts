const INCH = 0.0254;
/** A height within this of a sixteenth is that sixteenth, in sixteenths: rounding of the last digits moves nothing. */
const SLACK = 1e-6;

const FRACTIONS = [
  '',
  '1/16',
  '1/8',
  '3/16',
  '1/4',
  '5/16',
  '3/8',
  '7/16',
  '1/2',
  '9/16',
  '5/8',
  '11/16',
  '3/4',
  '13/16',
  '7/8',
  '15/16',
];

/** Metres as inches and sixteenths, rounded up or down, the safe way being the caller's to know: '39 3/8 in'. */
export function sixteenths(metres: number, rounding: 'up' | 'down'): string {
  const count = (metres / INCH) * 16;
  const whole = rounding === 'up' ? Math.ceil(count - SLACK) : Math.floor(count + SLACK);
  const sign = whole < 0 ? '-' : '';
  const inches = Math.floor(Math.abs(whole) / 16);
  const fraction = FRACTIONS[Math.abs(whole) % 16]!;
  const text = [inches === 0 && fraction !== '' ? '' : String(inches), fraction].filter(Boolean).join(' ');
  return `${sign}${text} in`;
}

const grouped = new Intl.NumberFormat('en-GB');

/** A whole number with separators: '200,000'. */
export const wholeText = (value: number): string => grouped.format(value);

/** A chance as '1 in N', N rounded down to two or three figures, so never said smaller than it is. */
export function oneIn(chance: number): string {
  if (chance <= 0) return 'none';
  if (chance >= 0.5) return `${Math.round(chance * 100)} in 100`;
  const n = 1 / chance;
  const digits = 10 ** Math.max(0, Math.floor(Math.log10(n)) - (n < 1000 ? 2 : 1));
  return `1 in ${wholeText(Math.max(1, Math.floor(n / digits + 1e-9) * digits))}`;
}

/** Hub angle in words: '15° ahead of the top'. */
export function angleWords(radians: number): string {
  const degrees = Math.round((radians * 180) / Math.PI);
  if (degrees === 0) return 'straight up';
  return `${Math.abs(degrees)}° ${degrees > 0 ? 'ahead of' : 'behind'} the top`;
}
