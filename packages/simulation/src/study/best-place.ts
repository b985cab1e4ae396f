import type { Case, CaseTub } from '@tubgap/casefile';
import { SIXTEENTH } from '@tubgap/units';
import { missingRoom } from '../envelope.ts';
import type { Pick, PickedHeight } from '../pick.ts';
import { sideFaults } from '../side-rooms.ts';
import { nearBest, type PerformTubs, type PlacedTub, pickWhereTheyStand } from './places.ts';
import { lackAt, type PlaceRange, rangeOnCar, searchPlaces, searchSample } from './search-places.ts';
import type { StudySample } from './study-tasks.ts';

/** Where a tub asks for the least top height on the car, and what it asks for there. */
export interface BestPlace extends Omit<PickedHeight, 'staticGaps' | 'contactRisk' | 'mayFall'> {
  /** Of the arc's centre, m ahead of the axle, and ahead of where the case has it. */
  centreForward: number;
  by: number;
}

/** What was looked at of one tub's place: ends of where its centre was looked at, m ahead of the axle. */
export interface BestPlaceSearch extends PlaceRange {
  /** Null when it fits tyres and car at none of the places. */
  best: BestPlace | null;
}

/** A search with what it looked at. */
export interface SearchedTub extends BestPlaceSearch {
  /** By the draws of the search, in the order of the places; none where the car has no room for the tub. */
  searched: PlacedTub[];
  /** The best place by all draws; undefined where that is the case's own, or there is none. */
  moved: PlacedTub | undefined;
}

/** Whether a tub fits tyres and car where it stands. */
const isIn = (source: Case, tub: number, { verdict, height }: Pick): boolean =>
  verdict === 'fits' && height !== undefined && missingRoom(source, tub, height.topHeight).length === 0;

const placeOf = (
  own: CaseTub,
  centreForward: number,
  { topHeight, limitingTyre, decidedBy, runRisk, seasonRisk }: PickedHeight,
): BestPlace => ({
  centreForward,
  by: centreForward - own.centreForward,
  topHeight,
  limitingTyre,
  decidedBy,
  runRisk,
  seasonRisk,
});

/** Places that may be the best, the likeliest first: the lowest point of a parabola, and the best that was looked at. */
function likelyPlaces(only: Case, range: PlaceRange | undefined, searched: readonly PlacedTub[]): number[] {
  const heights = searched.map((place) => {
    const [what, height] = lackAt(only, place);
    return what === 0 ? height : Number.POSITIVE_INFINITY;
  });
  const near = nearBest(searched, heights);
  if (range === undefined || near === undefined) return [];
  // Rounded to a sixteenth it stays on the car.
  const inside = Math.min(
    Math.floor(range.to / SIXTEENTH + 1e-9) * SIXTEENTH,
    Math.max(Math.ceil(range.from / SIXTEENTH - 1e-9) * SIXTEENTH, near.place),
  );
  return [...new Set([inside, searched[near.index]!.centreForward])];
}

/**
 * The fore-aft place at which each tub of a case asks for the least top height, within 2 in of where the case has it and
 * where the car has the room: by a search in some of the draws, and none is named before it has been picked there in all,
 * by runs and seasons.
 * @param picks  of the tubs where they stand
 * @param sample  the draws of those picks
 * @throws ModelRangeError when a draw leaves what the model knows
 */
export async function searchBestPlaces(
  source: Case,
  picks: readonly Pick[],
  sample: StudySample,
  performTubs: PerformTubs,
): Promise<SearchedTub[]> {
  const ranges = source.tubs.map((tub, t) => rangeOnCar(source, tub, picks[t]!.height?.topHeight));
  const searched = await searchPlaces(source, ranges, searchSample(sample), performTubs);
  const found = source.tubs.map((tub, t): SearchedTub => {
    const { height } = picks[t]!;
    const { from, to } = ranges[t] ?? { from: tub.centreForward, to: tub.centreForward };
    const best =
      height !== undefined && isIn(source, t, picks[t]!) ? placeOf(tub, tub.centreForward, height) : null;
    return { from, to, best, searched: searched[t]!, moved: undefined };
  });
  let open = source.tubs.map((tub, t) => ({
    t,
    places: likelyPlaces({ ...source, tubs: [tub] }, ranges[t], searched[t]!),
  }));
  while (open.some(({ places }) => places.length > 0)) {
    open = open.filter(({ places }) => places.length > 0);
    const there = {
      ...source,
      tubs: open.map(({ t, places }) => ({ ...source.tubs[t]!, centreForward: places[0]! })),
    };
    const { picks: picked, placed } = await pickWhereTheyStand(there, sample, performTubs);
    open = open.flatMap(({ t, places }, k) => {
      const { height } = picked[k]!;
      if (height === undefined || !isIn(there, k, picked[k]!)) return [{ t, places: places.slice(1) }];
      const { best } = found[t]!;
      if (best === null || height.topHeight < best.topHeight - 1e-9) {
        found[t]!.best = placeOf(source.tubs[t]!, places[0]!, height);
        found[t]!.moved = placed[k]!;
      }
      return [];
    });
  }
  return found;
}

/**
 * Looks for the best place of the tub to build, and of every tub that does not fit where it stands; of one that its sides
 * keep out no place is asked.
 * @param found  picks of all tubs where they stand, and the index of the tub to build
 * @param performTubs  makes the tasks of a study of the case in such tubs
 * @returns one a tub, undefined where nobody looked
 */
export async function findBestPlaces(
  source: Case,
  { picks, chosen }: { picks: readonly Pick[]; chosen: number | undefined },
  sample: StudySample,
  performTubs: PerformTubs,
): Promise<(BestPlaceSearch | undefined)[]> {
  const asked = [...picks.keys()].filter((t) => {
    const keepsOut = sideFaults(source, source.tubs[t]!).length > 0;
    return t === chosen || (!keepsOut && !isIn(source, t, picks[t]!));
  });
  if (asked.length === 0) return picks.map(() => undefined);
  const found = await searchBestPlaces(
    { ...source, tubs: asked.map((t) => source.tubs[t]!) },
    asked.map((t) => picks[t]!),
    sample,
    performTubs,
  );
  return picks.map((_, t) => {
    const search = found[asked.indexOf(t)];
    return search && { from: search.from, to: search.to, best: search.best };
  });
}
