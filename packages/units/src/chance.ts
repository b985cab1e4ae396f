const grouped = new Intl.NumberFormat('en-GB');

/** A number with separators: '200,000'. */
export const wholeText = (value: number): string => grouped.format(value);

/** The N of a chance above 0 as 1 in N, cut to two or three figures, so that it is never said smaller than it is. */
export function outOf(chance: number): string {
  const n = 1 / chance;
  const digits = 10 ** Math.max(0, Math.floor(Math.log10(n)) - (n < 1000 ? 2 : 1));
  return wholeText(Math.max(1, Math.floor(n / digits + 1e-9) * digits));
}

/** A chance as '1 in N', from an even one on as '71 in 100': never said smaller than it is. */
export function oneIn(chance: number): string {
  if (chance <= 0) return 'none';
  return chance >= 0.5 ? `${Math.ceil(chance * 100 - 1e-9)} in 100` : `1 in ${outOf(chance)}`;
}
