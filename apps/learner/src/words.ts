import { INCH, oneIn, sixteenths } from '@tubgap/units';

/** Rarer than this, few draws cannot tell one chance from another. */
export const RAREST = 1e-6;

/** A chance as '1 in N', as far as a learner's few draws can tell. */
export const chanceText = (chance: number): string =>
  chance < RAREST ? 'fewer than 1 in 1,000,000' : oneIn(chance);

/** '13/16 in lower', '1/8 in higher', 'the same'. */
export function heightChange(metres: number): string {
  if (Math.abs(metres) < INCH / 32) return 'the same';
  return `${sixteenths(Math.abs(metres), 'nearest')} ${metres < 0 ? 'lower' : 'higher'}`;
}

export const percent = (share: number): string => `${Math.round(share * 100)} %`;
