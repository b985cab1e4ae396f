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

/** Rarer than this a figure of a few thousand weighted runs tells nothing but that it is rare. */
const HARDLY = 1e-6;

/** How many runs do something: '1 in 54 runs', 'hardly any run'. */
export const ofRuns = (chance: number): string =>
  chance < HARDLY ? 'hardly any run' : `${oneIn(chance)} runs`;
