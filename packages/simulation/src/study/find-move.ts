import type { Case } from '@tubgap/casefile';
import { INCH, SIXTEENTH } from '@tubgap/units';
import { missingRoom } from '../envelope.ts';
import type { Verdict } from '../verdict.ts';
import {
  comparedHeight,
  lookAtPlaces,
  nearBest,
  type PerformTubs,
  type PlacedTub,
  withCentre,
} from './places.ts';
import { rangeOnCar, searchPlaces, searchSample } from './search-places.ts';
import type { StudySample } from './study-tasks.ts';

/** A move of the tub along the car that brings it within what is accepted. */
export interface Move {
  /** Of the arc's centre, m ahead of the axle. */
  centreForward: number;
  /** m, positive: ahead. */
  by: number;
  /** Top height that goes with it, m: the one at which the tub stands, unless no place is within there. */
  topHeight: number;
  /** Lengths that the car lacks for the tub there, m. */
  roomMissing: number[];
}

/** Highest of the heights that the tyres ask for at a place, m; Infinity where one finds none. */
const heightAt = ({ figures }: PlacedTub): number =>
  Math.max(...figures.slice(0, -1).map(({ topHeight }) => topHeight ?? Number.POSITIVE_INFINITY));

/** Moves are told to so much, m. */
const MOVES_BY = INCH / 8;

/** Moves from where a tub does not do to one where it does, a little beyond it as well, the shortest first. */
function movesBetween(outside: number, inside: number): number[] {
  const way = Math.sign(inside);
  const [first, last] = [Math.abs(outside), Math.abs(inside)].map((far) => far / MOVES_BY);
  const from = Math.floor(first! + 1e-9) + 1;
  return Array.from({ length: Math.ceil(last! - 1e-9) - from + 1 }, (_, n) => way * (from + n) * MOVES_BY);
}

/**
 * Looks for the shortest move of a tub along the car that brings it within what is accepted: places by the search for the
 * best one, and none is named before the tub has been judged there. Where no place is within at the height at which the
 * tub stands, and no height where it stands, the lowest place is taken.
 * @param verdict  on the tub where it stands
 * @param sample  the draws of that verdict
 * @param judge  how the tub of a case in which it is moved stands at that height
 * @returns undefined when nothing is found
 */
export async function findMove(
  source: Case,
  tub: number,
  { topHeight, heightNeeded }: Verdict,
  sample: StudySample,
  performTubs: PerformTubs,
  judge: (moved: Case) => Promise<Verdict>,
): Promise<Move | undefined> {
  const own = source.tubs[tub]!;
  const only = { ...source, tubs: [own] };
  const range = rangeOnCar(source, own, topHeight);
  const [searched] = await searchPlaces(only, [range], searchSample(sample), performTubs);
  const moveTo = ({ centreForward }: { centreForward: number }): number => centreForward - own.centreForward;
  const moved = async (
    centreForward: number | undefined,
    heightBy: (verdict: Verdict) => number | undefined,
  ): Promise<Move | undefined> => {
    if (centreForward === undefined) return undefined;
    const there = withCentre(source, tub, centreForward);
    const height = heightBy(await judge(there));
    return height === undefined
      ? undefined
      : {
          centreForward,
          by: centreForward - own.centreForward,
          topHeight: height,
          roomMissing: missingRoom(there, tub, height),
        };
  };
  const asItStands = ({ standing }: Verdict): number | undefined =>
    standing === 'within' ? topHeight : undefined;
  const byMove = searched!.toSorted((a, b) => Math.abs(moveTo(a)) - Math.abs(moveTo(b)));
  const lowest = nearBest(searched!, searched!.map(comparedHeight))?.place;
  const within = byMove.find(
    (place) => comparedHeight(place) <= topHeight && Math.abs(moveTo(place)) > SIXTEENTH,
  );
  // Between two places of the search the lowest one may be within where neither is.
  const target = within?.centreForward ?? lowest;
  if (target !== undefined) {
    const by = target - own.centreForward;
    const outside = byMove.findLast(
      (place) => place !== within && moveTo(place) * by > 0 && Math.abs(moveTo(place)) < Math.abs(by),
    );
    const moves = movesBetween(outside === undefined ? 0 : moveTo(outside), by);
    // What the search's few draws leave open, all of them tell.
    const places = moves.map((move) => own.centreForward + move);
    const [finer] = await lookAtPlaces(only, [places], sample, performTubs);
    const first = finer!.find((place) => heightAt(place) <= topHeight + 1e-9);
    const shortest = await moved(first?.centreForward, asItStands);
    const kept = shortest ?? (within && (await moved(lowest, asItStands)));
    if (kept !== undefined) return kept;
  }
  return heightNeeded === undefined ? moved(lowest, (verdict) => verdict.heightNeeded) : undefined;
}
