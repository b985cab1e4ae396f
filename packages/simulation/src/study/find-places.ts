import type { Case } from '@tubgap/casefile';
import { INCH, SIXTEENTH } from '@tubgap/units';
import type { Pick } from '../pick.ts';
import type { Findings } from '../tasks.ts';
import { type SearchedTub, searchBestPlaces } from './best-place.ts';
import {
  comparedHeight,
  lookAtPlaces,
  type PerformTubs,
  type PlacedTub,
  pickedWhereTheyStand,
  pickWhereTheyStand,
} from './places.ts';
import { searchSample } from './search-places.ts';
import type { StudySample } from './study-tasks.ts';

/** Loss of height up to which a place counts as good as the best. */
const AS_GOOD = SIXTEENTH;

/** What is found of the fore-aft place of one tub. */
export interface TubPlaces {
  /** Its pick where the case has it, and its best place; null when it fits tyres and car at none. */
  pick: Pick;
  best: SearchedTub['best'];
  /** By all draws: where the case has it, and at its best place. */
  own: PlacedTub;
  atBest: PlacedTub | undefined;
  /** By the draws of the search, in the order of the places; among them the best, and an inch behind and ahead of it. */
  searched: PlacedTub[];
  inchBehind: PlacedTub | undefined;
  inchAhead: PlacedTub | undefined;
  /** The best place lies at the end of what was searched: beyond it there may be a better one. */
  atEnd: boolean;
  /** Ends of the range about the best place that costs no more than 1/16 in of height, m. */
  asGood: { from: number; to: number } | undefined;
}

/** Where the height on one side of a place passes what counts as good, m; straight between searched places. */
function asGoodEnd(searched: readonly PlacedTub[], index: number, most: number, side: -1 | 1): number {
  for (let here = index; ; here += side) {
    const [place, next] = [searched[here]!, searched[here + side]];
    if (next === undefined) return place.centreForward;
    const [low, high] = [comparedHeight(place), comparedHeight(next)];
    if (high <= most) continue;
    const share = Number.isFinite(high) ? Math.max(0, most - low) / (high - low) : 0;
    return place.centreForward + share * (next.centreForward - place.centreForward);
  }
}

/**
 * For each tub the fore-aft place of its centre that asks for the least top height, as a pick finds it, with what was
 * looked at on the way; and what an inch of misplacement costs.
 * @param sample  the draws of the case's pick, and what it found where it has been made
 * @param performTubs  makes tasks of the case in such tubs, which then may be worked out anywhere
 * @param tell  told the share that is done
 * @throws ModelRangeError when a draw leaves what the model knows
 */
export async function findPlaces(
  source: Case,
  { found, ...sample }: StudySample & { found?: Findings | undefined },
  performTubs: PerformTubs,
  tell: (done: number) => void = () => {},
): Promise<TubPlaces[]> {
  const { picks, placed } =
    found === undefined
      ? await pickWhereTheyStand(source, sample, performTubs)
      : pickedWhereTheyStand(source, found);
  tell(0.2);
  const searches = await searchBestPlaces(source, picks, sample, performTubs);
  tell(0.8);
  const beside = await lookAtPlaces(
    source,
    searches.map(({ best }) =>
      best === null ? [] : [0, -INCH, INCH].map((off) => best.centreForward + off),
    ),
    searchSample(sample),
    performTubs,
  );
  return searches.map(({ best, moved, searched, from, to }, t): TubPlaces => {
    const [looked, inchBehind, inchAhead] = beside[t]!;
    const others = searched.filter(
      (place) =>
        !beside[t]!.some(({ centreForward }) => Math.abs(centreForward - place.centreForward) < 1e-9),
    );
    const rows = [...others, ...beside[t]!].sort((a, b) => a.centreForward - b.centreForward);
    const end = (side: -1 | 1): number =>
      asGoodEnd(rows, rows.indexOf(looked!), comparedHeight(looked!) + AS_GOOD, side);
    return {
      pick: picks[t]!,
      best,
      own: placed[t]!,
      atBest: best === null ? undefined : (moved ?? placed[t]!),
      searched: rows,
      inchBehind,
      inchAhead,
      atEnd: best !== null && Math.min(best.centreForward - from, to - best.centreForward) < SIXTEENTH - 1e-9,
      asGood: looked === undefined ? undefined : { from: end(-1), to: end(1) },
    };
  });
}
