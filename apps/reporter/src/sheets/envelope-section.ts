import { type Markup, markup } from '@tubgap/drawing';
import type { Result } from '@tubgap/results';
import { changeText, leastPain, type TubFit, tubFits } from './envelope.ts';
import { inchText } from './lengths.ts';
import { sheetTable } from './sheet-page.ts';

/** Tubs and ways out that a page has room for; envelope.csv holds all. */
const MOST_TUBS = 6;
const MOST_WAYS = 3;

const yes = (fits: boolean): string => (fits ? 'yes' : 'no');
const room = (left: number | undefined): string =>
  left === undefined ? 'not given' : inchText(left, 'down');

function limitsText({ envelope }: Result): string {
  const { highestTop, lowestLeg, furthestAhead, furthestBehind } = envelope;
  const parts = [
    highestTop !== undefined && `top outside up to ${inchText(highestTop, 'down')}`,
    lowestLeg !== undefined && `legs down to ${inchText(lowestLeg, 'up')}`,
    furthestAhead !== undefined && `${inchText(furthestAhead, 'down')} ahead of the axle`,
    furthestBehind !== undefined && `${inchText(furthestBehind, 'down')} behind it`,
  ].filter((part) => part !== false);
  return parts.length === 0 ? '' : `The car lets a tub stand: ${parts.join(', ')}.`;
}

/** The tub to build first, then those that fit, then the rest, as many as there is room for. */
function shownFits(result: Result, fits: readonly TubFit[]): TubFit[] {
  const rank = (fit: TubFit): number =>
    fit === fits[result.chosen ?? -1] ? 0 : fit.fitsBoth ? 1 : fit.fitsTyre ? 2 : 3;
  return fits.toSorted((a, b) => rank(a) - rank(b)).slice(0, MOST_TUBS);
}

function verdict(result: Result, fits: readonly TubFit[]): Markup {
  const both = fits.filter((fit) => fit.fitsBoth).map((fit) => fit.name);
  const chosen = fits[result.chosen ?? -1];
  const ways = leastPain(fits).slice(0, MOST_WAYS);
  const list =
    ways.length > 0 &&
    markup`<ol>${ways.map((fit) => markup`<li><b>${fit.name}</b>, top ${inchText(fit.topHeight, 'up')}: ${changeText(fit)}.</li>`)}</ol>`;
  if (both.length === 0) {
    return markup`<p class="stop"><b>No tub fits both the car and the tyres.</b>${
      list
        ? markup` The least that would have to change, in this order:`
        : ' No change of lengths alone brings one in.'
    }</p>${list}`;
  }
  if (chosen !== undefined && !chosen.fitsBoth) {
    return markup`<p class="stop"><b>The tub of this sheet does not fit the car: ${changeText(chosen)}.</b> These fit both car and tyres: ${both.join(', ')}.</p>`;
  }
  return markup`<p>These fit both car and tyres: ${both.join(', ')}.</p>`;
}

/** Which tubs the car takes, which the tyres, and what would have to change. */
export function envelopeSection(result: Result): Markup {
  const fits = tubFits(result);
  const limits = limitsText(result);
  const shown = shownFits(result, fits);
  const table = sheetTable(
    `Reach on the outside of the skin at the lowest top height for the accepted risk${fits.length > shown.length ? `; ${fits.length - shown.length} more in envelope.csv` : ''}`,
    [
      { text: 'tub' },
      { text: 'car' },
      { text: 'tyres' },
      { text: 'top outside', number: true },
      { text: 'ahead', number: true },
      { text: 'behind', number: true },
      { text: 'room above', number: true },
      { text: 'room ahead', number: true },
      { text: 'room behind', number: true },
    ],
    shown.map((fit) => ({
      cells: [
        fit.name,
        yes(fit.fitsCar),
        yes(fit.fitsTyre),
        inchText(fit.reach.top, 'up'),
        inchText(fit.reach.ahead, 'up'),
        inchText(fit.reach.behind, 'up'),
        room(fit.room.above),
        room(fit.room.ahead),
        room(fit.room.behind),
      ],
      main: fit === fits[result.chosen ?? -1],
    })),
  );
  if (limits === '') {
    return markup`<p>The case gives no limits of the car (<i>envelope</i>): hold these against the car by hand.</p>${table}`;
  }
  return markup`<p>${limits}</p>${verdict(result, fits)}${table}`;
}
