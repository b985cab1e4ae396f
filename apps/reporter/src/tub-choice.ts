import { type DecidedResult, leastAccepted } from '@tubgap/results';
import { sidesInTheWay, takesLessRoom } from '@tubgap/simulation';
import { oneIn } from '@tubgap/units';
import { figuresOf } from './figures-of.ts';
import { tubFits } from './sheets/envelope.ts';

/** What a tub that was passed over needs more than the one to build, and what it saves. */
export function extraWords(result: DecidedResult, t: number): string {
  const { length, tapeDifference } = figuresOf(result);
  const built = result.chosen!;
  const higher = tapeDifference(
    [result.picks[t]!.height!.topHeight, 'up'],
    [result.picks[built]!.height!.topHeight, 'up'],
  );
  const smaller = tapeDifference([result.tubs[built]!.diameter, 'down'], [result.tubs[t]!.diameter, 'down']);
  return `needs ${length(higher, 'down')} more height for ${length(smaller, 'up')} less diameter`;
}

/** One row on the choice of the tub; one that decides is what nobody may build past. */
interface ChoiceRow {
  label: string;
  text: string;
  decides?: boolean;
}

/** Why smaller tubs than the one to build were passed over, and why that one may itself be too narrow; one row each. */
export function choiceWords(result: DecidedResult): ChoiceRow[] {
  const { length } = figuresOf(result);
  const { chosen, passedOver, picks, tubs } = result;
  if (chosen === null) return [];
  const smaller = passedOver.map(
    (t) => `${tubs[t]!.name} ${extraWords(result, t)} (top ${length(picks[t]!.height!.topHeight, 'up')})`,
  );
  const beside = sidesInTheWay(result.runs.all, chosen, leastAccepted(result));
  return [
    ...stockRows(result, chosen),
    ...(smaller.length > 0 ? [{ label: 'Passed over', text: smaller.join('; ') }] : []),
    ...(beside > 0
      ? [
          {
            label: 'Narrow',
            decides: true,
            text:
              `in ${oneIn(beside)} runs the tyre comes too close to the sides of this tub; it clears only because its ends ` +
              'then stand above the tyre’s shoulders. A larger tub, or another place for its centre, is what to look for first',
          },
        ]
      : []),
  ];
}

/** What the shop's own list says of a tub or a tyre: 'stock yes, supplier …'; empty where it says nothing. */
export const listedWords = (listed: Readonly<Record<string, string>> = {}): string =>
  Object.entries(listed)
    .map(([head, text]) => `${head} ${text}`)
    .join(', ');

/** What the shop's list says of the tub to build, that it is to be ordered, and what would take less room if it were there. */
function stockRows(result: DecidedResult, chosen: number): ChoiceRow[] {
  const { tubs } = result;
  const tub = tubs[chosen]!;
  const words = listedWords(tub.listed);
  const order = tub.inStock === false;
  const smaller = order ? [] : tubs.flatMap((other, t) => (isLeftForStock(result, t) ? [other.name] : []));
  return [
    ...(order
      ? [{ label: 'ORDER', decides: true, text: `${tub.name} is not in stock, and no tub in stock does` }]
      : []),
    ...listedRows(words, result.tyres),
    ...(smaller.length === 0
      ? []
      : [
          {
            label: 'To order',
            text: `${smaller.join(', ')} would take less room, but ${smaller.length === 1 ? 'is' : 'are'} not in stock`,
          },
        ]),
  ];
}

/** What the shop's list says of the tub to build, then of each tyre by its name. */
function listedRows(tub: string, tyres: DecidedResult['tyres']): ChoiceRow[] {
  const ofTyres = tyres.flatMap(({ name, listed }) => {
    const words = listedWords(listed);
    return words === '' ? [] : [`${name}: ${words}`];
  });
  const texts = [...(tub === '' ? [] : [tub]), ...ofTyres];
  return texts.map((text, i) => ({ label: i === 0 ? 'Stock list' : '', text }));
}

/** Whether a tub fits and takes less room than the one to build, and was left only because it is not in stock. */
export function isLeftForStock(result: DecidedResult, t: number): boolean {
  const { chosen, picks, tubs } = result;
  const height = picks[t]!.height;
  const built = chosen === null ? undefined : picks[chosen]!.height;
  if (tubs[t]!.inStock !== false || height === undefined || built === undefined || t === chosen) return false;
  if (tubs[chosen!]!.inStock === false || tubFits(result)[t]?.fitsBoth !== true) return false;
  const room = (index: number, { topHeight }: { topHeight: number }) => ({
    diameter: tubs[index]!.diameter,
    topHeight,
  });
  return takesLessRoom(room(t, height), room(chosen!, built));
}
