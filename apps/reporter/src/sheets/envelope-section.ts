import { type Markup, markup } from '@tubgap/drawing';
import type { Result } from '@tubgap/results';
import type { Figures } from '@tubgap/units';
import { yesNo } from '@tubgap/wording';
import { loweringChanges } from '../change-words.ts';
import { figuresOf } from '../figures-of.ts';
import { unknownWords, verdictWord } from '../fit-words.ts';
import { changeText, leastPain, type TubFit, tubFits } from './envelope.ts';
import { sheetTable } from './sheet-page.ts';

/** Tubs and ways out that a page has room for; envelope.csv holds all. */
const MOST_TUBS = 4;
const MOST_WAYS = 3;

const room = (left: number | undefined, { length }: Figures): string =>
  left === undefined ? 'not given' : length(left, 'down');

function limitsText(result: Result): string | undefined {
  const { length } = figuresOf(result);
  const { highestTop, lowestLeg, furthestAhead, furthestBehind } = result.envelope;
  const parts = [
    highestTop !== undefined && `top outside up to ${length(highestTop, 'down')}`,
    lowestLeg !== undefined && `legs down to ${length(lowestLeg, 'up')}`,
    furthestAhead !== undefined && `${length(furthestAhead, 'down')} ahead of the axle`,
    furthestBehind !== undefined && `${length(furthestBehind, 'down')} behind it`,
  ].filter((part) => part !== false);
  return parts.length === 0 ? undefined : `The car lets a tub stand: ${parts.join(', ')}.`;
}

/** The tub to build first, then those that fit, then the rest, as many as there is room for. */
function shownFits(result: Result, fits: readonly TubFit[]): TubFit[] {
  const rank = (fit: TubFit): number =>
    fit === fits[result.chosen ?? -1] ? 0 : fit.fitsBoth ? 1 : fit.fitsTyre ? 2 : 3;
  return fits.toSorted((a, b) => rank(a) - rank(b)).slice(0, MOST_TUBS);
}

/** What else lowers the height that the tub to build needs, one thing at a time, where the window is too low for it. */
function otherWays(result: Result, fit: TubFit | undefined): Markup | false {
  const { length } = figuresOf(result);
  const short = fit?.shortages?.find(({ what }) => what === 'above');
  const ways = loweringChanges(result);
  if (fit === undefined || short === undefined || ways.length === 0) return false;
  return markup`<p>What lowers the height that ${fit.name} needs, one at a time: ${ways.map(({ label, gives }) => `${label} ${length(gives, 'down')}`).join('; ')}.</p>`;
}

function verdict(result: Result, fits: readonly TubFit[]): Markup {
  const { length } = figuresOf(result);
  const both = fits.filter((fit) => fit.fitsBoth).map((fit) => fit.name);
  const chosen = fits[result.chosen ?? -1];
  const ways = leastPain(fits).slice(0, MOST_WAYS);
  const list =
    ways.length > 0 &&
    markup`<ol>${ways.map((fit) => markup`<li><b>${fit.name}</b>, top ${length(fit.topHeight, 'up')}: ${changeText(fit, figuresOf(result))}.</li>`)}</ol>`;
  if (both.length === 0) {
    const unknown = unknownWords(result);
    const none =
      unknown === undefined
        ? 'No tub fits both the car and the tyres.'
        : 'No tub is known to fit both the car and the tyres.';
    return markup`<p class="stop"><b>${none}</b>${unknown !== undefined && markup` Not known: ${unknown}.`}${
      list
        ? markup` The least that would have to change, in this order:`
        : unknown === undefined && ' No change of lengths alone brings one in.'
    }</p>${list}${otherWays(result, fits[result.nearest ?? -1])}`;
  }
  if (chosen !== undefined && !chosen.fitsBoth) {
    return markup`<p class="stop"><b>The tub of this sheet does not fit the car: ${changeText(chosen, figuresOf(result))}.</b> These fit both car and tyres: ${both.join(', ')}.</p>${otherWays(result, chosen)}`;
  }
  return markup`<p>These fit both car and tyres: ${both.join(', ')}.</p>`;
}

/** Columns that hold something for this case: without limits nothing is known of the room. */
function columnsOf(
  limited: boolean,
  figures: Figures,
): { text: string; kind?: 'n'; cell: (fit: TubFit) => string }[] {
  const { length } = figures;
  const ofRoom = (side: keyof TubFit['room']) => ({
    text: `room ${side}`,
    kind: 'n' as const,
    cell: (fit: TubFit): string => room(fit.room[side], figures),
  });
  return [
    ...(limited ? [{ text: 'fits car', cell: (fit: TubFit): string => yesNo(fit.fitsCar) }] : []),
    { text: 'fits tyres', cell: (fit) => verdictWord(fit.tyreVerdict) },
    {
      text: 'top inside',
      kind: 'n',
      cell: (fit) =>
        fit.shortages !== undefined
          ? length(fit.topHeight, 'up')
          : fit.tyreVerdict === 'not known'
            ? 'not known'
            : 'none',
    },
    {
      text: 'top outside',
      kind: 'n',
      cell: (fit) => (fit.shortages === undefined ? '' : length(fit.reach.top, 'up')),
    },
    { text: 'ahead', kind: 'n', cell: (fit) => length(fit.reach.ahead, 'up') },
    { text: 'behind', kind: 'n', cell: (fit) => length(fit.reach.behind, 'up') },
    ...(limited ? [ofRoom('above'), ofRoom('ahead'), ofRoom('behind')] : []),
  ];
}

/** Which tubs the car takes, which the tyres, and what would have to change. */
export function envelopeSection(result: Result): Markup {
  const fits = tubFits(result);
  const limits = limitsText(result);
  const shown = shownFits(result, fits);
  const columns = columnsOf(limits !== undefined, figuresOf(result));
  const more = fits.length - shown.length;
  const table = sheetTable(
    `Outside of the skin, at the least top height for the accepted risk${more > 0 ? `; ${more} more in envelope.csv` : ''}`,
    [{ text: 'tub' }, ...columns],
    shown.map((fit) => ({
      cells: [fit.name, ...columns.map(({ cell }) => cell(fit))],
      main: fit === fits[result.chosen ?? -1],
    })),
  );
  if (limits === undefined) {
    return markup`<p>The case gives no limits of the car (<i>envelope</i>): hold these against the car by hand.</p>${table}`;
  }
  return markup`<p>${limits}</p>${verdict(result, fits)}${table}`;
}
