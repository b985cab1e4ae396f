import { type DecidedResult, leastAccepted, limitsOf, type Result } from '@tubgap/results';
import { sidesInTheWay } from '@tubgap/simulation';
import { betterPlace, placesThatFit, placeText, reasonText } from './best-place.ts';
import { loweringChanges } from './change-words.ts';
import { figuresOf } from './figures-of.ts';
import { unknownTubs, unknownWords } from './fit-words.ts';
import { hardPointWords } from './hard-points/hard-words.ts';
import { changeText, leastPain, tubFits } from './sheets/envelope.ts';
import { extraWords, isLeftForStock } from './tub-choice.ts';

/** Ways out that are named; the table of tubs has all. */
const MOST_WAYS = 3;

const isLimited = (result: Result): boolean => Object.keys(result.envelope).length > 0;

/** What stands beside a tub in a table of all: that it is the one, or why not. */
export function tubNote(result: Result, t: number): string {
  const pick = result.picks[t]!;
  if (t === result.chosen) {
    const stock = result.tubs.some((_, other) => isLeftForStock(result, other)) ? 'in stock ' : '';
    const order = result.tubs[t]!.inStock === false ? 'to order: ' : '';
    const known = unknownTubs(result).length === 0 ? 'that fits' : 'that is known to fit';
    const fits = isLimited(result) ? `${known} car and tyres` : known;
    return result.passedOver.length === 0
      ? `${order}smallest ${stock}${fits}`
      : `${order}takes least room of what ${stock === '' ? '' : 'is in stock and '}${fits.slice('that '.length)}`;
  }
  if (pick.verdict !== 'fits' || pick.height === undefined) return reasonText(result, t);
  if (result.chosen !== null && result.passedOver.includes(t)) return `fits, but ${extraWords(result, t)}`;
  const fit = tubFits(result)[t]!;
  if (fit.fitsBoth && result.tubs[t]!.inStock === false) return 'fits, not in stock';
  const better = betterPlace(result, t);
  if (!fit.fitsBoth && better !== undefined) return `fits with ${placeText(better, figuresOf(result))}`;
  return fit.fitsBoth ? '' : `fits the tyres, not the car: ${changeText(fit, figuresOf(result))}`;
}

/** Ways to a tub that fits both, the least pain first, one sentence each; none where the tyres fit no tub. */
export function waysOut(result: DecidedResult): string[] {
  const { length } = figuresOf(result);
  return leastPain(tubFits(result))
    .filter((fit) => fit.fitsTyre)
    .slice(0, MOST_WAYS)
    .map((fit) => `${fit.name}, top ${length(fit.topHeight, 'up')}: ${changeText(fit, figuresOf(result))}`);
}

/** What lowers the height that the nearest tub needs, one thing at a time; undefined when nothing does. */
export function lowerWords(result: Result): string | undefined {
  const { length } = figuresOf(result);
  const nearest = result.nearest === null ? undefined : result.tubs[result.nearest];
  const ways = loweringChanges(result).map(({ label, gives }) => `${label} gives ${length(gives, 'down')}`);
  return nearest === undefined || ways.length === 0
    ? undefined
    : `to lower the height that ${nearest.name} needs, one thing at a time: ${ways.join('; ')}`;
}

/**
 * Inside diameter that each tyre asks for between the sides of a tub, m: its rarest outline held, angle by angle, with
 * the reserve on both sides of a centre that stands best for it. A guide to the next catalogue page, not a pick.
 */
function widthBetweenSides(result: Result, tyre: number): number {
  const { angles, tyres } = result.outlines;
  const radii = tyres[tyre]!.quantiles.at(-1)!;
  const reaches = angles.map((angle, k) => radii[k]! * Math.sin(angle));
  return Math.max(...reaches) - Math.min(...reaches) + 2 * limitsOf(result, result.tyres[tyre]!.name).reserve;
}

/** How large a tub would have to be where the sides of every one are in the way; undefined otherwise. */
export function sizeWords(result: Result): string | undefined {
  const { length } = figuresOf(result);
  const { all } = result.runs;
  const inTheWay = all.tubs.every((_, t) => sidesInTheWay(all, t, leastAccepted(result)) > 0);
  if (!inTheWay) return undefined;
  const widths = result.tyres.map((_, i) => widthBetweenSides(result, i));
  const widest = widths.indexOf(Math.max(...widths));
  const largest = result.tubs.reduce((a, b) => (b.diameter > a.diameter ? b : a));
  const misplaced = 2 * largest.radius > widths[widest]!;
  return (
    `the sides of every tub are in the way: ${result.tyres[widest]!.name} with its reserve takes about ` +
    `${length(widths[widest]!, 'up')} between them in a rare run; ${largest.name} has ${length(2 * largest.radius, 'down')}` +
    (misplaced ? ', enough if its centre stood elsewhere along the car' : '')
  );
}

type Row = { label: string; text: string };

/** The decision where no tub can be named, and the ways out that follow from it. */
export function noTubWords(result: DecidedResult): Row[] {
  const unknown = unknownWords(result);
  const moves = placesThatFit(result).map((text, i) => ({ label: i === 0 ? 'Move' : 'or', text }));
  if (result.nearest === null && moves.length > 0) {
    return [
      {
        label: 'NO TUB',
        text: 'none of these tubs fits where it stands, but at another place along the car:',
      },
      ...moves,
    ];
  }
  if (result.nearest === null && unknown !== undefined) {
    return [{ label: 'NOT KNOWN', text: `${unknown}; the table says how many it needs` }];
  }
  if (result.nearest === null) {
    return [
      {
        label: 'NO TUB',
        text: 'none of these tubs can be recommended for the accepted risk; the table says why',
      },
    ];
  }
  return [
    {
      label: 'NO TUB',
      text:
        moves.length === 0
          ? 'no tub fits both the car and the tyres. What would have to change, the least first:'
          : 'no tub fits both the car and the tyres where it stands. Where it does, and what would have to change, the least first:',
    },
    ...moves,
    ...waysOut(result).map((text, i) => ({ label: i === 0 ? 'Change' : 'or', text })),
  ];
}

/** What is said below it: what else stands in the way, and what would change it. */
export function noTubOutlook(result: Result): Row[] {
  const points = hardPointWords(result).map((text) => ({ label: 'Hard points', text }));
  const unknown = unknownWords(result);
  if (result.nearest === null) {
    const size = unknown === undefined ? sizeWords(result) : undefined;
    return [...(size === undefined ? [] : [{ label: 'Too small', text: size }]), ...points];
  }
  const lower = lowerWords(result);
  return [
    ...(lower === undefined ? [] : [{ label: 'Or', text: lower }]),
    ...(unknown === undefined ? [] : [{ label: 'Not known', text: unknown }]),
    ...points,
  ];
}
