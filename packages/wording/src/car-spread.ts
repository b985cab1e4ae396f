import type { CarSpread } from '@tubgap/simulation';
import { oneIn, percentText } from '@tubgap/units';
import { ofRuns } from './chance.ts';
import { carsLikeThis } from './season.ts';

/** Why it is not told how cars differ. */
const TOO_FEW_TOUCH = 'too few of the draws touch at this height';

/** Nearly all, from where on a share is not worth a figure. */
const NEARLY_ALL = 0.99;

/** How cars that fit one description differ: 'the tightest 1 car in 50 like this has nearly all of …'. */
export function carSpreadWords(spread: CarSpread | null): string {
  if (spread === null) return `not known how they differ: ${TOO_FEW_TOUCH}`;
  const { worstShare, worst, rest, worstTouches } = spread;
  const part = worstTouches > NEARLY_ALL ? 'nearly all' : percentText(worstTouches);
  return `the tightest ${carsLikeThis(worstShare)} has ${part} of the runs too close, about ${oneIn(worst)} of its own; the others come so close in ${ofRuns(rest)}`;
}
