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
