import type { Case, CaseTub } from '@tubgap/casefile';
import { INCH, SIXTEENTH } from '@tubgap/units';
import { caseRisks } from '../case-risks.ts';
import { missingRoom, tubReach } from '../envelope.ts';
import { type Pick, type PickedHeight, pickHeights } from '../pick.ts';
import { sideFaults } from '../side-rooms.ts';
import { withCentre } from './find-move.ts';
import { heightOf, lookAtPlaces, nearBest, type OpenPlaces, type PlacedTub } from './places.ts';
import { openStudy, type PerformStudy, runStudy, type StudySample } from './study-tasks.ts';

/** How far from its place a tub is looked at, m, where the car has the room; and at how many places. */
const REACH = 2 * INCH;
const PLACES = 7;

/** Where a tub asks for the least top height on the car, and what it asks for there. */
export interface BestPlace extends Omit<PickedHeight, 'staticGaps' | 'contactRisk' | 'mayFall'> {
  /** Of the arc's centre, m ahead of the axle, and ahead of where the case has it. */
  centreForward: number;
  by: number;
}

/** What was looked at of one tub's place. */
export interface BestPlaceSearch {
  /** Ends of where its centre was looked at, m ahead of the axle. */
  from: number;
  to: number;
  /** Null when it fits tyres and car at none of the places. */
  best: BestPlace | null;
}

/** Centres at which a tub has room ahead of the axle and behind it, as far as it is looked at, m; empty: none. */
function placesOnCar({ envelope }: Case, tub: CaseTub, topHeight: number | undefined): number[] {
  // A tub without a height is taken with its legs whole.
  const sizes = { ...tub, halfExtent: 0.5 * tub.arcExtent, centreForward: 0 };
  const { ahead } = tubReach(sizes, topHeight ?? Number.POSITIVE_INFINITY, envelope.lowestLeg);
  const { furthestAhead = Number.POSITIVE_INFINITY, furthestBehind = Number.POSITIVE_INFINITY } = envelope;
  const from = Math.max(tub.centreForward - REACH, ahead - furthestBehind);
  const to = Math.min(tub.centreForward + REACH, furthestAhead - ahead);
  if (from > to) return [];
  if (to - from < SIXTEENTH) return [from];
  return Array.from({ length: PLACES }, (_, k) => from + (k * (to - from)) / (PLACES - 1));
}

/** The case with its tub at a place by the rule of a pick, seasons included, with the draws of the search. */
async function pickAt(source: Case, sample: StudySample, open: OpenPlaces): Promise<Pick> {
  const { study, perform, close } = open(source);
  let pick: Pick | undefined;
  const seasons = { cars: source.simulation.cars, accepted: source.accept.seasonRisk };
  await runStudy(study, { ...sample, heights: [], seasons }, perform, (totals) => {
    const { counted, unseen, weighted } = totals.seasons!;
    const runs = totals.plain.tallies;
    const tail = totals.weighted.tallies;
    const risks = caseRisks(
      runs,
      tail.all.events > 0 ? tail : undefined,
      counted,
      weighted.events > 0 ? weighted : undefined,
      unseen,
    );
    [pick] = pickHeights(source, study.points[0]!.setup, risks, runs);
  });
  await close();
  return pick!;
}

/**
 * The fore-aft place at which a tub asks for the least top height, within 2 in of where the case has it and where the car
 * has the room: by the comparison of places, and none is named before it has been picked there by runs and seasons.
 * @param pick  of the tub where it stands
 * @param sample  the draws of that pick
 * @throws ModelRangeError when a draw leaves what the model knows
 */
async function findBestPlace(
  source: Case,
  tub: number,
  pick: Pick,
  sample: StudySample,
  open: OpenPlaces,
): Promise<BestPlaceSearch> {
  const own = source.tubs[tub]!;
  const only = { ...source, tubs: [own] };
  const places = placesOnCar(source, own, pick.height?.topHeight);
  const [from = own.centreForward, to = from] = [places[0], places.at(-1)];
  const stands =
    pick.height !== undefined && isIn(source, tub, pick)
      ? placeOf(own, own.centreForward, pick.height)
      : null;
  if (places.length === 0) return { from, to, best: stands };
  const [searched] = await lookAtPlaces(only, [places], sample, open);
  const heights = searched!.map((place) =>
    hasRoom(only, place) ? heightOf(place) : Number.POSITIVE_INFINITY,
  );
  const near = nearBest(searched!, places.length > 1 ? places[1]! - from : 0, heights);
  if (near === undefined) return { from, to, best: stands };
  // Rounded to a sixteenth it stays on the car.
  const inside = Math.min(
    Math.floor(to / SIXTEENTH + 1e-9) * SIXTEENTH,
    Math.max(Math.ceil(from / SIXTEENTH - 1e-9) * SIXTEENTH, near.place),
  );
  for (const centreForward of new Set([inside, places[near.index]!])) {
    const there = withCentre(only, 0, centreForward);
    const found = await pickAt(there, sample, open);
    const { height } = found;
    if (height === undefined || !isIn(there, 0, found)) continue;
    const isBetter = stands === null || height.topHeight < stands.topHeight - 1e-9;
    return { from, to, best: isBetter ? placeOf(own, centreForward, height) : stands };
  }
  return { from, to, best: stands };
}

/** Whether a tub fits tyres and car where it stands. */
const isIn = (source: Case, tub: number, { verdict, height }: Pick): boolean =>
  verdict === 'fits' && height !== undefined && missingRoom(source, tub, height.topHeight).length === 0;

const hasRoom = (only: Case, { centreForward, figures }: PlacedTub): boolean => {
  const { topHeight } = figures.at(-1)!;
  return (
    topHeight === undefined || missingRoom(withCentre(only, 0, centreForward), 0, topHeight).length === 0
  );
};

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

/**
 * Looks for the best place of the tub to build, and of every tub that does not fit where it stands; of one that its sides
 * keep out no place is asked.
 * @param found  picks of all tubs where they stand, and the index of the tub to build
 * @param performWith  makes the tasks of a study of the case in such tubs
 * @param tell  told the share that is done
 * @returns one a tub, undefined where nobody looked
 */
export async function findBestPlaces(
  source: Case,
  { picks, chosen }: { picks: readonly Pick[]; chosen: number | undefined },
  sample: StudySample,
  performWith: (tubs: readonly CaseTub[]) => PerformStudy,
  tell: (done: number) => void,
): Promise<(BestPlaceSearch | undefined)[]> {
  const open: OpenPlaces = (placed) => ({
    study: openStudy([{ label: source.name, source: placed }]),
    perform: performWith(placed.tubs),
    close: async () => {},
  });
  const searches: (BestPlaceSearch | undefined)[] = [];
  for (const [t, pick] of picks.entries()) {
    const keepsOut = sideFaults(source, source.tubs[t]!).length > 0;
    const isAsked = t === chosen || (!keepsOut && !isIn(source, t, pick));
    searches.push(isAsked ? await findBestPlace(source, t, pick, sample, open) : undefined);
    tell((t + 1) / picks.length);
  }
  return searches;
}
