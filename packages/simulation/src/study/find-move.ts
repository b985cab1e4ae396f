import type { Case } from '@tubgap/casefile';
import { missingRoom } from '../envelope.ts';
import type { Standing } from '../verdict.ts';
import { findPlaces, type OpenPlaces, type PlacedTub } from './places.ts';

/** A move of the tub along the car that brings it within what is accepted at the height at which it stands. */
export interface Move {
  /** Of the arc's centre, m ahead of the axle. */
  centreForward: number;
  /** m, positive: ahead. */
  by: number;
  /** Lengths that the car lacks for the tub there, m. */
  roomMissing: number[];
}

/** The case with one tub moved along the car. */
export const withCentre = (source: Case, tub: number, centreForward: number): Case => ({
  ...source,
  tubs: source.tubs.map((one, t) => (t === tub ? { ...one, centreForward } : one)),
});

/** Highest of the heights that the tyres ask for at a place, m; Infinity where one finds none. */
const heightAt = ({ figures }: PlacedTub): number =>
  Math.max(...figures.slice(0, -1).map(({ topHeight }) => topHeight ?? Number.POSITIVE_INFINITY));

/**
 * Looks for the shortest move of a tub along the car, 2 in behind the axle to 3 in ahead of it, that brings it within
 * what is accepted: places by the comparison of places, and none is named before the tub has been judged there.
 * @param topHeight  at which it stands and stays, m
 * @param judge  how the tub stands in a case in which it is moved
 * @returns undefined when no place is found
 */
export async function findMove(
  source: Case,
  tub: number,
  topHeight: number,
  blocks: number,
  open: OpenPlaces,
  judge: (moved: Case) => Promise<Standing>,
): Promise<Move | undefined> {
  const own = source.tubs[tub]!;
  const [places] = await findPlaces({ ...source, tubs: [own] }, blocks, open);
  const far = ({ centreForward }: PlacedTub): number => Math.abs(centreForward - own.centreForward);
  const enough = places!.searched
    .filter((place) => heightAt(place) <= topHeight + 1e-9)
    .sort((a, b) => far(a) - far(b) || heightAt(a) - heightAt(b));
  if (enough.length === 0) return undefined;
  const lowest = enough.toSorted((a, b) => heightAt(a) - heightAt(b))[0]!;
  for (const { centreForward } of new Set([enough[0]!, lowest])) {
    const moved = withCentre(source, tub, centreForward);
    if ((await judge(moved)) !== 'within') continue;
    return {
      centreForward,
      by: centreForward - own.centreForward,
      roomMissing: missingRoom(moved, tub, topHeight),
    };
  }
  return undefined;
}
