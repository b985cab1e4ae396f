import type { Case, CaseTub } from '@tubgap/casefile';
import { BLOCK } from '@tubgap/statistics';
import { INCH, SIXTEENTH } from '@tubgap/units';
import { missingRoom, tubReach } from '../envelope.ts';
import { lookAtPlaces, type PerformTubs, type PlacedTub, withCentre } from './places.ts';
import type { CellFigures } from './study-figures.ts';
import type { StudySample } from './study-tasks.ts';

/** How far from its place a tub is looked at, m, where the car has the room; and at how many places at first. */
const REACH = 2 * INCH;
const PLACES = 7;
/** Into how many steps one between two places is divided where it is looked into. */
const FINER = 4;
/**
 * Steps are divided while longer than this, m: where a tub fits it costs a little height to stand a sixteenth beside its
 * best place, where it does not the band in which it would may be narrow.
 */
const FINE_WHERE_IT_FITS = INCH / 4;
const FINE_WHERE_NOT = SIXTEENTH;

/**
 * Draws that a search makes do with: places are held against each other in the same ones, whose noise is common to all
 * (in the demo the best place is that of all draws to a sixteenth), and what it finds is picked by all draws.
 */
export const searchSample = ({ draws, weightedBlocks, centres }: StudySample): StudySample => ({
  draws: Math.min(draws, 16 * BLOCK),
  weightedBlocks: Math.min(weightedBlocks, 8),
  centres,
});

/** Ends of where a tub's centre may stand, m ahead of the axle: near its place, and with room on the car. */
export interface PlaceRange {
  from: number;
  to: number;
}

/** @param topHeight  m; undefined: a tub without a height is taken with its legs whole. @returns undefined: nowhere */
export function rangeOnCar(
  { envelope }: Case,
  tub: CaseTub,
  topHeight: number | undefined,
): PlaceRange | undefined {
  const sizes = { ...tub, halfExtent: 0.5 * tub.arcExtent, centreForward: 0 };
  const { ahead } = tubReach(sizes, topHeight ?? Number.POSITIVE_INFINITY, envelope.lowestLeg);
  const { furthestAhead = Number.POSITIVE_INFINITY, furthestBehind = Number.POSITIVE_INFINITY } = envelope;
  const from = Math.max(tub.centreForward - REACH, ahead - furthestBehind);
  const to = Math.min(tub.centreForward + REACH, furthestAhead - ahead);
  return from > to ? undefined : { from, to };
}

function firstPlaces(range: PlaceRange | undefined): number[] {
  if (range === undefined) return [];
  const { from, to } = range;
  if (to - from < SIXTEENTH) return [from];
  return Array.from({ length: PLACES }, (_, k) => from + (k * (to - from)) / (PLACES - 1));
}

/** What keeps a tub out: nothing; a length of the car, m; or so large a risk, whatever the height. */
export type Lack = readonly [what: 0 | 1 | 2, much: number];

/** Of a tub that nothing keeps out the height tells, m. @param only  the case with this tub alone @param figures  of each tyre and, last, all */
export function lackOf(only: Case, figures: readonly CellFigures[]): Lack {
  const { topHeight, leastRisk, even } = figures.at(-1)!;
  if (even === undefined) return [2, leastRisk];
  const missing = missingRoom(only, 0, topHeight ?? even.height);
  return missing.length > 0 ? [1, missing.reduce((sum, more) => sum + more, 0)] : [0, even.height];
}

/** The same at a place. @param only  the case with this tub alone */
export const lackAt = (only: Case, { centreForward, figures }: PlacedTub): Lack =>
  lackOf(withCentre(only, 0, centreForward), figures);

/** The less kept out first, and of what nothing keeps out the lower. */
export const compareLacks = (a: Lack, b: Lack): number => a[0] - b[0] || a[1] - b[1];

/**
 * Places between those that were looked at where a better one may hide: beside the least bad, by the risk that is left at
 * any height or the room that is missing, while the tub fits nowhere; beside the best where a leg or a hard point decides
 * there, for then heights do not follow a parabola. None when there is nothing to gain.
 */
function placesBetween(only: Case, searched: readonly PlacedTub[]): number[] {
  const lacks = searched.map((place) => lackAt(only, place));
  const least = lacks.toSorted(compareLacks)[0];
  if (least === undefined) return [];
  const best = [...lacks.keys()].filter((k) => compareLacks(lacks[k]!, least) === 0);
  const fits = least[0] === 0;
  if (fits && searched[best[0]!]!.figures.at(-1)!.decidedBy === 'arc') return [];
  // Where many are equally bad, as where every run touches, nothing tells where to go on: each gap is divided once.
  const enough = fits || best.length > 2 ? FINE_WHERE_IT_FITS : FINE_WHERE_NOT;
  const gaps = new Set(best.flatMap((k) => [k - 1, k]));
  return [...gaps].flatMap((k) => {
    const [from, to] = [searched[k]?.centreForward, searched[k + 1]?.centreForward];
    if (from === undefined || to === undefined || to - from <= enough + 1e-9) return [];
    return Array.from({ length: FINER - 1 }, (_, n) => from + ((n + 1) * (to - from)) / FINER);
  });
}

const inOrder = (places: readonly PlacedTub[]): PlacedTub[] =>
  places.toSorted((a, b) => a.centreForward - b.centreForward);

/**
 * Looks at each tub of a case at places along the car: evenly at first, then between them where the tub fits nowhere or
 * what decides is no smooth valley.
 * @param ranges  of each tub; undefined: it is not looked at
 * @param sample  as `searchSample` has it
 * @returns [tub], in the order of the places
 * @throws ModelRangeError when a draw leaves what the model knows
 */
export async function searchPlaces(
  source: Case,
  ranges: readonly (PlaceRange | undefined)[],
  sample: StudySample,
  performTubs: PerformTubs,
): Promise<PlacedTub[][]> {
  const searched = source.tubs.map((): PlacedTub[] => []);
  let asked = ranges.map(firstPlaces);
  while (asked.some((places) => places.length > 0)) {
    const looked = await lookAtPlaces(source, asked, sample, performTubs);
    looked.forEach((more, t) => {
      searched[t] = inOrder([...searched[t]!, ...more]);
    });
    asked = searched.map((places, t) =>
      asked[t]!.length === 0 ? [] : placesBetween({ ...source, tubs: [source.tubs[t]!] }, places),
    );
  }
  return searched;
}
