import type { Case } from '@tubgap/casefile';
import { INCH, SIXTEENTH } from '@tubgap/units';
import { type CellFigures, studyFigures } from './study-figures.ts';
import { type PerformStudy, runStudy, type Study, type StudySample } from './study-tasks.ts';

/** Places of the arc's centre that are looked at, m ahead of the axle: every quarter of an inch. */
const QUARTER = INCH / 4;
const BEHIND = -2 * INCH;
const AHEAD = 3 * INCH;
export const SEARCHED_PLACES: readonly number[] = Array.from(
  { length: Math.round((AHEAD - BEHIND) / QUARTER) + 1 },
  (_, k) => BEHIND + k * QUARTER,
);

/** Setups are compared at no height. */
const NOWHERE: readonly (readonly number[])[] = [];

/** Loss of height up to which a place counts as good as the best. */
const AS_GOOD = SIXTEENTH;

/** A tub with its centre at one place, m ahead of the axle: [tyre or, last, all tyres]. */
export interface PlacedTub {
  centreForward: number;
  figures: CellFigures[];
}

/** What is found of the fore-aft place of one tub. */
export interface TubPlaces {
  tub: string;
  /** In the order of SEARCHED_PLACES. */
  searched: PlacedTub[];
  /** Undefined when no place has a height. */
  best: PlacedTub | undefined;
  /** The best place lies at the end of what was searched: beyond it there may be a better one. */
  atEnd: boolean;
  /** Ends of the range about the best place that costs no more than 1/16 in of height, m. */
  asGood: { from: number; to: number } | undefined;
  /** An inch behind and ahead of the best place. */
  inchBehind: PlacedTub | undefined;
  inchAhead: PlacedTub | undefined;
  /** Where the case has it. */
  own: PlacedTub;
}

/** A case with each of its tubs at several places: tub by tub, in the order of the places. */
const placed = (source: Case, places: readonly (readonly number[])[]): Case => ({
  ...source,
  tubs: source.tubs.flatMap((tub, t) => places[t]!.map((centreForward) => ({ ...tub, centreForward }))),
});

/** Makes the tasks of one setup somewhere. */
export type OpenPlaces = (source: Case) => {
  study: Study;
  perform: PerformStudy;
  close: () => Promise<void>;
};

/** Height of a tub at a place for comparisons, m; Infinity where there is none. */
export const heightOf = (place: PlacedTub): number =>
  place.figures.at(-1)!.even?.height ?? Number.POSITIVE_INFINITY;

/** Lowest point of a parabola through three equally spaced heights, m ahead of the middle one, within half a step. */
export function parabolaOffset(before: number, middle: number, after: number, step: number): number {
  const bend = before - 2 * middle + after;
  if (!(bend > 0) || !Number.isFinite(bend)) return 0;
  return Math.max(-0.5, Math.min(0.5, (before - after) / (2 * bend))) * step;
}

/**
 * Best place by searched ones at even steps, to the nearest sixteenth; undefined when none has a height.
 * @param heights  of the searched places, m; Infinity where one has none, or none that will do
 */
export function nearBest(
  searched: readonly PlacedTub[],
  step: number,
  heights: readonly number[] = searched.map(heightOf),
): { index: number; place: number } | undefined {
  const least = Math.min(...heights);
  if (!Number.isFinite(least)) return undefined;
  const index = heights.indexOf(least);
  const offset = parabolaOffset(
    heights[index - 1] ?? Number.POSITIVE_INFINITY,
    least,
    heights[index + 1] ?? Number.POSITIVE_INFINITY,
    step,
  );
  return { index, place: Math.round((searched[index]!.centreForward + offset) / SIXTEENTH) * SIXTEENTH };
}

/** Where the height on one side of the best place passes what counts as good, m; straight between searched places. */
function asGoodEnd(searched: readonly PlacedTub[], index: number, most: number, side: -1 | 1): number {
  let here = index;
  while (heightOf(searched[here]!) <= most) {
    const next = searched[here + side];
    if (next === undefined) return searched[here]!.centreForward;
    const [low, high] = [heightOf(searched[here]!), heightOf(next)];
    if (high > most) {
      const share = Number.isFinite(high) ? (most - low) / (high - low) : 0;
      return searched[here]!.centreForward + side * share * QUARTER;
    }
    here += side;
  }
  return searched[index]!.centreForward;
}

/** Each tub of a case at its places, all with the same draws: [tub][place]. */
export async function lookAtPlaces(
  source: Case,
  places: readonly (readonly number[])[],
  sample: StudySample,
  open: OpenPlaces,
): Promise<PlacedTub[][]> {
  const { study, perform, close } = open(placed(source, places));
  let rows: CellFigures[][] = [];
  await runStudy(study, { ...sample, heights: NOWHERE }, perform, (totals) => {
    rows = studyFigures(study.points[0]!, totals, source.accept.runRisk, NOWHERE);
  });
  await close();
  let t = 0;
  return places.map((ofTub) =>
    ofTub.map((centreForward): PlacedTub => {
      const figures = rows.map((tubs) => tubs[t]!);
      t++;
      return { centreForward, figures };
    }),
  );
}

/**
 * For each tub the fore-aft place of its centre that asks for the least top height, over all tyres, with the same
 * draws at every place; and what an inch of misplacement costs.
 * @param sample  the draws of the case's pick: where it has its tubs their figures are the pick's
 * @param open  makes a case's tasks, which then may be worked out anywhere
 * @throws ModelRangeError when a draw leaves what the model knows
 */
export async function findPlaces(
  source: Case,
  sample: StudySample,
  open: OpenPlaces,
  tell: (done: number) => void = () => {},
): Promise<TubPlaces[]> {
  const lookAt = (places: readonly (readonly number[])[]): Promise<PlacedTub[][]> =>
    lookAtPlaces(source, places, sample, open);
  const searched = await lookAt(source.tubs.map(() => SEARCHED_PLACES));
  tell(0.8);
  const near = searched.map((rows) => nearBest(rows, QUARTER));
  const closer = await lookAt(
    source.tubs.map((tub, t) => {
      const place = near[t]?.place;
      return [tub.centreForward, ...(place === undefined ? [] : [place, place - INCH, place + INCH])];
    }),
  );
  return source.tubs.map((tub, t): TubPlaces => {
    const rows = searched[t]!;
    const [own, best, inchBehind, inchAhead] = closer[t]!;
    const index = near[t]?.index;
    const most = best === undefined ? 0 : heightOf(best) + AS_GOOD;
    return {
      tub: tub.name,
      searched: rows,
      best,
      atEnd: index === 0 || index === rows.length - 1,
      asGood:
        index === undefined
          ? undefined
          : { from: asGoodEnd(rows, index, most, -1), to: asGoodEnd(rows, index, most, 1) },
      inchBehind,
      inchAhead,
      own: own!,
    };
  });
}
