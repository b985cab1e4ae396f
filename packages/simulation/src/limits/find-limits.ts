import type { Case } from '@tubgap/casefile';
import { SIXTEENTH } from '@tubgap/units';
import type { Perform } from '../simulate.ts';
import type { StudySample } from '../study/study-tasks.ts';
import { type GridSearch, type Margins, openSearch } from './grid-search.ts';
import type { Limit } from './limit.ts';
import { type LimitPlace, type Looks, openLooks } from './look.ts';
import type { Stands } from './margins.ts';
import { type Limited, limitQuantities } from './quantities.ts';
import { limitOf, rangesOf, type Scale, scaleOf, turns } from './scale.ts';
import { inTub, type Trial } from './trials.ts';

/** Shares of the way to where a search ends at which a rough look is taken. */
const ROUGH_SHARES = [0.12, 0.4, 1];
/** Places that are looked at where the height does not follow a number one way only. */
const RANGE_PLACES = 9;

/** A look that left the model: neither within nor surely beyond. */
const OUTSIDE: Margins = { upper: Number.POSITIVE_INFINITY, lower: Number.NEGATIVE_INFINITY };

const worse = (one: Margins, other: Margins): Margins => ({
  upper: Math.max(one.upper, other.upper),
  lower: Math.max(one.lower, other.lower),
});

/** Draws that a tub was judged by, and what it lacks in height by them. */
export type LimitSample = StudySample & { stands: Stands };

/** What is known of a number's places, and the search that asks for more. */
interface Searched {
  scale: Scale;
  search: GridSearch;
  runs: Map<number, Margins>;
  seasons: Map<number, Margins>;
  /** Whether seasons lead the search as well; else they are held against its ends alone. */
  bySeasons: boolean;
}

const trialsOf = (asked: readonly (readonly [Scale, readonly number[]])[]): Trial[] =>
  asked.flatMap(([{ quantity, valueAt }, places]) =>
    places.map((place) => ({ code: quantity.code, value: valueAt(place) })),
  );

/** Takes rough looks at places of every scale, and ends each where the model ends. */
async function glance(
  scales: readonly Scale[],
  places: readonly (readonly number[])[],
  looks: Looks,
): Promise<void> {
  const told = await looks.rough(trialsOf(scales.map((scale, i) => [scale, places[i]!])));
  scales.forEach((scale, i) => {
    for (const at of places[i]!) {
      const margin = told.shift();
      if (margin !== undefined) scale.rough.push({ at, margin });
      else if (at > scale.now) scale.last = Math.min(scale.last, at - 1);
      else scale.first = Math.max(scale.first, at + 1);
    }
    scale.rough.sort((a, b) => a.at - b.at);
  });
}

/**
 * For each number that is asked about, how far it may go until a tub at its height no longer keeps what the shop accepts.
 * One search over the same draws for all of them, each trial value a variant of the case. The last value within was put
 * through all draws of the case, seasons among them, and judged by the rule of a pick; of values beyond those that were
 * looked at nothing is told.
 * @param sample  the draws of the verdict on that tub, and what it lacks by them
 * @param codes  what is asked about; left out: all that the case has
 * @throws RangeError when no sidewall gives a tyre's measured deflection
 */
export async function findLimits(
  source: Case,
  place: LimitPlace,
  { stands, ...sample }: LimitSample,
  perform: Perform,
  codes?: readonly Limited[],
  tell: (done: number) => void = () => {},
): Promise<Limit[]> {
  const looks = openLooks(source, place, sample, perform);
  const roughNow = await looks.roughNow();
  tell(0.1);
  const both = worse(stands.runs, stands.seasons);
  const scales = limitQuantities(inTub(source, place.tub), place.tyre)
    .filter(({ code }) => codes?.includes(code) ?? true)
    .map(scaleOf);
  // Towards more height where there is some to spare, towards less where it lacks; both ways where that is not known.
  for (const scale of scales) {
    scale.rough = [{ at: scale.now, margin: roughNow }];
    if (both.lower > 0) scale.last = Math.max(scale.first, Math.min(scale.last, Math.ceil(scale.now)));
    if (both.upper <= 0) scale.first = Math.min(scale.last, Math.max(scale.first, Math.floor(scale.now)));
  }
  const between = ({ first, last, now: from }: Scale): number[] =>
    [...(both.upper > 0 ? [first] : []), ...(both.lower <= 0 ? [last] : [])].flatMap((end) =>
      ROUGH_SHARES.map((share) => Math.round(from + share * (end - from))),
    );
  await glance(scales, scales.map(between), looks);
  tell(0.2);
  // Once more where the search is going to begin, so that it begins with the right slope.
  const opened = scales.map((scale) => search(scale, both).wanted());
  await glance(scales, opened, looks);

  const searched = scales
    .filter((scale) => !turns(scale))
    .map((scale): Searched => {
      const isOfSeasons = scale.quantity.code === 'runs';
      return {
        scale,
        search: search(scale, isOfSeasons ? both : stands.runs),
        runs: standing(scale, stands.runs),
        seasons: standing(scale, stands.seasons),
        bySeasons: isOfSeasons,
      };
    });
  for (let done = 0.3; await step(searched, stands, looks); done += 0.4 * (1 - done)) tell(done);
  const found = new Map(searched.map(({ scale, search: own }) => [scale, limitOf(scale, own.found())]));
  const limits: Limit[] = [];
  for (const scale of scales) limits.push(found.get(scale) ?? (await inRanges(scale, looks)));
  return limits;
}

const search = (scale: Scale, margins: Margins): GridSearch =>
  openSearch(scale.first, scale.last, scale.rough, { at: scale.now, margins }, standing(scale, margins));

/** What is known of a scale before it is looked at: the case as it stands, where that is one of its places. */
function standing({ now, first, last }: Scale, margins: Margins): Map<number, Margins> {
  const place = Math.round(now);
  const isPlace = Math.abs(now - place) < 1e-9 && place >= first && place <= last;
  return new Map(isPlace ? [[place, margins]] : []);
}

/** Seasons that ask for this much less height than runs, m, decide nothing where runs do not. */
const FAR = 2 * SIXTEENTH;

/** Whether the season asks for so much less height than the runs that it is not what ends the numbers after this one. */
function isFarFromSeasons({ runs, seasons }: Searched, at: number): boolean {
  const [byRuns, bySeasons] = [runs.get(at), seasons.get(at)];
  return byRuns !== undefined && bySeasons !== undefined && bySeasons.lower < byRuns.lower - FAR;
}

/**
 * Takes the next looks of all searches together.
 * @param stands  margins as the case stands: how many runs a season has does not touch those by the run risks
 * @returns whether there may be more to do
 */
async function step(searched: Searched[], stands: Stands, looks: Looks): Promise<boolean> {
  const wanted = searched.map(({ search: own }) => own.wanted());
  // A search by runs alone has ended where seasons agree with both of its ends.
  const ends = searched.map((one, i): number[] => {
    if (one.bySeasons || wanted[i]!.length > 0) return [];
    const { within, beyond } = one.search.found();
    const lastOpen = (beyond ?? one.scale.last + 1) - 1;
    const last = lastOpen < one.scale.first ? [] : [lastOpen];
    if (within === undefined) return last;
    const isOpen = one.seasons.has(within) && !isFarFromSeasons(one, within);
    return [...new Set([within, ...(isOpen ? last : [])])];
  });
  const lacks = (kind: 'runs' | 'seasons', i: number, places: readonly number[]): number[] =>
    places.filter((at) => !searched[i]![kind].has(at));
  const fill = async (
    kind: 'runs' | 'seasons',
    placesOf: (one: Searched, i: number) => readonly number[],
  ): Promise<boolean> => {
    const places = searched.map((one, i) => lacks(kind, i, placesOf(one, i)));
    const told = await looks[kind](trialsOf(searched.map(({ scale }, i) => [scale, places[i]!])));
    searched.forEach((one, i) => {
      for (const at of places[i]!) one[kind].set(at, told.shift() ?? OUTSIDE);
    });
    return places.some((own) => own.length > 0);
  };
  for (const [i, { scale, runs }] of searched.entries()) {
    if (scale.quantity.code === 'runs') for (const at of wanted[i]!) runs.set(at, stands.runs);
  }
  await fill('runs', (_, i) => wanted[i]!);
  let isOpen = await fill('seasons', ({ bySeasons }, i) => (bySeasons ? wanted[i]! : ends[i]!));
  for (const [i, one] of searched.entries()) {
    for (const at of wanted[i]!) {
      const runs = one.runs.get(at)!;
      one.search.told(at, one.bySeasons ? worse(runs, one.seasons.get(at)!) : runs);
      isOpen = true;
    }
    const { within, beyond } = one.search.found();
    const disagrees = ends[i]!.some((at) => {
      const { upper, lower } = one.seasons.get(at)!;
      return (at === within && upper > 0) || (at < (beyond ?? Number.POSITIVE_INFINITY) && lower > 0);
    });
    if (!disagrees) continue;
    // Seasons decide here: the search begins anew with both.
    isOpen = true;
    one.bySeasons = true;
    one.search = search(one.scale, worse(stands.runs, stands.seasons));
  }
  return isOpen || searched.some(({ search: own }) => own.wanted().length > 0);
}

/** Whether a number is within at places all over its scale. */
async function inRanges(scale: Scale, looks: Looks): Promise<Limit> {
  const { first, last } = scale;
  const places = [
    ...new Set(
      Array.from({ length: RANGE_PLACES }, (_, k) =>
        Math.round(first + (k * (last - first)) / (RANGE_PLACES - 1)),
      ),
    ),
  ];
  const trials = trialsOf([[scale, places]]);
  const runs = await looks.runs(trials);
  const seasons = await looks.seasons(trials);
  const isWithin = places.map((at, k): [number, boolean] => [
    at,
    worse(runs[k] ?? OUTSIDE, seasons[k] ?? OUTSIDE).upper <= 0,
  ]);
  return rangesOf(scale, new Map(isWithin));
}
