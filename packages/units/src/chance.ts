import { whole } from './whole.ts';

const grouped = new Intl.NumberFormat('en-GB');

/** A number with separators: '200,000'. */
export const wholeText = (value: number): string => grouped.format(value);

/** A share in whole percent, one that is below 1 % to its first figure: '72 %', '0.4 %'. */
export const percentText = (share: number): string =>
  `${share > 0 && share < 0.01 ? Number((100 * share).toPrecision(1)) : Math.round(100 * share)} %`;

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

/** Rarer than this a figure of a few thousand weighted runs tells nothing but that it is rare. */
export const HARDLY_EVER = 1e-6;

/** A chance as far as few draws can tell: 'under 1 in 1,000,000'. */
export const chanceOfFew = (chance: number): string =>
  chance < HARDLY_EVER ? `under ${oneIn(HARDLY_EVER)}` : oneIn(chance);

/** A chance in one piece: '1 in 2,000'. */
export const chanceText = (chance: number): string => whole(oneIn(chance));

/** The run of the accepted risk, by name: every paper and page shows the same one. */
export const rareRun = (accepted: number): string => `the 1 run in ${outOf(accepted)}`;

/** That nothing was seen, in how many: 'none of 131,072 simulated runs'. */
export const noneOf = (events: number, event: string): string =>
  `none of ${wholeText(events)} simulated ${event}s`;
