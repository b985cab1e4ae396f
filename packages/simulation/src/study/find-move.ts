import type { Case } from '@tubgap/casefile';
import { missingRoom } from '../envelope.ts';
import type { Verdict } from '../verdict.ts';
import { findPlaces, type OpenPlaces, type PlacedTub } from './places.ts';
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
 * what is accepted: places by the comparison of places, and none is named before the tub has been judged there. Where
 * no place is within at the height at which the tub stands, and no height where it stands, the lowest place is taken.
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
  open: OpenPlaces,
  judge: (moved: Case) => Promise<Verdict>,
): Promise<Move | undefined> {
  const own = source.tubs[tub]!;
  const [places] = await findPlaces({ ...source, tubs: [own] }, sample, open);
  const far = ({ centreForward }: PlacedTub): number => Math.abs(centreForward - own.centreForward);
  const byHeight = places!.searched.toSorted((a, b) => heightAt(a) - heightAt(b) || far(a) - far(b));
  const lowest = byHeight[0]!;
  const nearest = byHeight
    .filter((place) => heightAt(place) <= topHeight + 1e-9)
    .sort((a, b) => far(a) - far(b))[0];
  const moved = async (
    { centreForward }: PlacedTub,
    heightOf: (verdict: Verdict) => number | undefined,
  ): Promise<Move | undefined> => {
    const there = withCentre(source, tub, centreForward);
    const height = heightOf(await judge(there));
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
  const kept = nearest === undefined ? undefined : await moved(nearest, asItStands);
  if (kept !== undefined) return kept;
  if (nearest !== undefined && nearest !== lowest) {
    const further = await moved(lowest, asItStands);
    if (further !== undefined) return further;
  }
  if (heightNeeded !== undefined || !Number.isFinite(heightAt(lowest))) return undefined;
  return moved(lowest, (verdict) => verdict.heightNeeded);
}
