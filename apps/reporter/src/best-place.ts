import type { DecidedResult, Result } from '@tubgap/results';
import type { Figures } from '@tubgap/units';
import { figuresOf } from './figures-of.ts';

export type BestPlace = NonNullable<NonNullable<Result['bestPlaces'][number]>['best']>;

/** Whether a place is another than the one of the pick. */
const isMoved = ({ by }: BestPlace): boolean => Math.abs(by) > 1e-9;

/** The place at which a tub fits that does not where it stands, or asks for less height; undefined where none is known. */
export function betterPlace({ bestPlaces }: DecidedResult, t: number): BestPlace | undefined {
  const best = bestPlaces[t]?.best ?? undefined;
  return best !== undefined && isMoved(best) ? best : undefined;
}

/** How a tub is moved: 'the centre 1/2 in further ahead'. */
const moveText = ({ by }: BestPlace, { length }: Figures): string =>
  `the centre ${length(Math.abs(by), 'nearest')} further ${by > 0 ? 'ahead' : 'back'}`;

/** A tub at its better place: 'the centre 1/2 in further ahead, top 40 11/16 in'. */
export const placeText = (best: BestPlace, figures: Figures): string =>
  `${moveText(best, figures)}, top ${figures.length(best.topHeight, 'up')}`;

/** Why a tub does not fit where it stands, with where it does, or that it does nowhere; empty when all is well. */
export function reasonText(result: DecidedResult, t: number): string {
  const { along, wordsOf } = figuresOf(result);
  const { reason, verdict, height } = result.picks[t]!;
  if (verdict === 'fits' && height !== undefined) return wordsOf(reason);
  const better = betterPlace(result, t);
  if (better !== undefined) return `fits with ${placeText(better, figuresOf(result))}`;
  const search = result.bestPlaces[t] ?? null;
  if (search === null) return wordsOf(reason);
  const { from, to } = search;
  if (from === to) return `${wordsOf(reason)}; the car leaves it no other place`;
  // What is not known where it stands is no "no" elsewhere.
  const nor =
    verdict === 'not known'
      ? 'nor is it known to fit at any place looked at'
      : 'nor does any place looked at';
  return `${wordsOf(reason)}; ${nor}, from ${along(from)} to ${along(to)}`;
}

/** The places at which tubs fit that do not where they stand, one sentence each. */
export const placesThatFit = (result: DecidedResult): string[] =>
  result.picks.flatMap(({ tub }, t) => {
    const better = t === result.chosen ? undefined : betterPlace(result, t);
    return better === undefined
      ? []
      : [
          `${tub} with ${placeText(better, figuresOf(result))} (${figuresOf(result).along(better.centreForward)})`,
        ];
  });

/** The best place of the tub to build; undefined where nobody has looked. */
export function chosenPlaceText(result: DecidedResult): string | undefined {
  const { length, along } = figuresOf(result);
  const { chosen, bestPlaces } = result;
  const search = chosen === null ? null : (bestPlaces[chosen] ?? null);
  if (search === null) return undefined;
  const better = betterPlace(result, chosen!);
  const looked = `looked at from ${along(search.from)} to ${along(search.to)}`;
  return better === undefined
    ? `no place of its centre asks for less height (${looked})`
    : `with ${moveText(better, figuresOf(result))} (${along(better.centreForward)}) ${length(better.topHeight, 'up')} would do (${looked})`;
}
