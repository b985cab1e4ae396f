import type { DecidedResult, Result } from '@tubgap/results';
import { alongText, sixteenths } from '@tubgap/units';

export type BestPlace = NonNullable<NonNullable<Result['bestPlaces'][number]>['best']>;

/** Whether a place is another than the one of the pick. */
const isMoved = ({ by }: BestPlace): boolean => Math.abs(by) > 1e-9;

/** The place at which a tub fits that does not where it stands, or asks for less height; undefined where none is known. */
export function betterPlace({ bestPlaces }: DecidedResult, t: number): BestPlace | undefined {
  const best = bestPlaces[t]?.best ?? undefined;
  return best !== undefined && isMoved(best) ? best : undefined;
}

/** How a tub is moved: 'the centre 1/2 in further ahead'. */
const moveText = ({ by }: BestPlace): string =>
  `the centre ${sixteenths(Math.abs(by), 'nearest')} further ${by > 0 ? 'ahead' : 'back'}`;

/** A tub at its better place: 'the centre 1/2 in further ahead, top 40 11/16 in'. */
export const placeText = (best: BestPlace): string =>
  `${moveText(best)}, top ${sixteenths(best.topHeight, 'up')}`;

/** Why a tub does not fit where it stands, with where it does, or that it does nowhere; empty when all is well. */
export function reasonText(result: DecidedResult, t: number): string {
  const { reason, verdict, height } = result.picks[t]!;
  if (verdict === 'fits' && height !== undefined) return reason;
  const better = betterPlace(result, t);
  if (better !== undefined) return `fits with ${placeText(better)}`;
  const search = result.bestPlaces[t] ?? null;
  if (search === null) return reason;
  const { from, to } = search;
  if (from === to) return `${reason}; the car leaves it no other place`;
  // What is not known where it stands is no "no" elsewhere.
  const nor =
    verdict === 'not known'
      ? 'nor is it known to fit at any place looked at'
      : 'nor does any place looked at';
  return `${reason}; ${nor}, from ${alongText(from, 'inch')} to ${alongText(to, 'inch')}`;
}

/** The places at which tubs fit that do not where they stand, one sentence each. */
export const placesThatFit = (result: DecidedResult): string[] =>
  result.picks.flatMap(({ tub }, t) => {
    const better = t === result.chosen ? undefined : betterPlace(result, t);
    return better === undefined
      ? []
      : [`${tub} with ${placeText(better)} (${alongText(better.centreForward, 'inch')})`];
  });

/** The best place of the tub to build; undefined where nobody has looked. */
export function chosenPlaceText(result: DecidedResult): string | undefined {
  const { chosen, bestPlaces } = result;
  const search = chosen === null ? null : (bestPlaces[chosen] ?? null);
  if (search === null) return undefined;
  const better = betterPlace(result, chosen!);
  const looked = `looked at from ${alongText(search.from, 'inch')} to ${alongText(search.to, 'inch')}`;
  return better === undefined
    ? `no place of its centre asks for less height (${looked})`
    : `with ${moveText(better)} (${alongText(better.centreForward, 'inch')}) ${sixteenths(better.topHeight, 'up')} would do (${looked})`;
}
