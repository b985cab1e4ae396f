import type { Result } from '@tubgap/results';
import { hardPointWords } from './hard-points/hard-words.ts';
import { changeText, leastPain, tubFits } from './sheets/envelope.ts';
import { sixteenths } from './words.ts';

/** Ways out that are named; the table of tubs has all. */
const MOST_WAYS = 3;
const SIXTEENTH = 0.0254 / 16;

const isLimited = (result: Result): boolean => Object.keys(result.envelope).length > 0;

/** What stands beside a tub in a table of all: that it is the one, or why not. */
export function tubNote(result: Result, t: number): string {
  const pick = result.picks[t]!;
  if (t === result.chosen)
    return isLimited(result) ? 'smallest that fits car and tyres' : 'smallest that fits';
  if (!pick.fits || pick.height === undefined) return pick.reason;
  const fit = tubFits(result)[t]!;
  return fit.fitsBoth ? '' : `fits the tyres, not the car: ${changeText(fit)}`;
}

/** Ways to a tub that fits both, the least pain first, one sentence each; none where the tyres fit no tub. */
export function waysOut(result: Result): string[] {
  return leastPain(tubFits(result))
    .filter((fit) => fit.fitsTyre)
    .slice(0, MOST_WAYS)
    .map((fit) => `${fit.name}, top ${sixteenths(fit.topHeight, 'up')}: ${changeText(fit)}`);
}

/** What lowers the height that the nearest tub needs, one thing at a time; empty when nothing does. */
export function lowerWords(result: Result): string {
  const nearest = result.nearest === null ? undefined : result.tubs[result.nearest];
  const ways = (result.changes ?? [])
    .filter(({ heightChange }) => heightChange <= -SIXTEENTH)
    .sort((a, b) => a.heightChange - b.heightChange)
    .map(({ label, heightChange }) => `${label} ${sixteenths(-heightChange, 'down')}`);
  return nearest === undefined || ways.length === 0
    ? ''
    : `what lowers the height that ${nearest.name} needs, one at a time: ${ways.join('; ')}`;
}

/** The decision where no tub can be named: what stands in the way, and what would have to change. */
export function noTubWords(result: Result): { label: string; text: string }[] {
  const points = hardPointWords(result).map((text) => ({ label: 'Hard points', text }));
  if (result.nearest === null) {
    return [
      {
        label: 'NO TUB',
        text: 'none of these tubs can be recommended for the accepted risk; the table says why',
      },
      ...points,
    ];
  }
  const lower = lowerWords(result);
  return [
    {
      label: 'NO TUB',
      text: 'no tub fits both the car and the tyres. What would have to change, the least first:',
    },
    ...waysOut(result).map((text, i) => ({ label: i === 0 ? 'Change' : 'or', text })),
    ...(lower === '' ? [] : [{ label: 'Lower', text: lower }]),
    ...points,
  ];
}
