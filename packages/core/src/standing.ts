import { standingTyre } from './car/stance.ts';
import { gapAtAngle } from './clearance/gap.ts';
import { fillRequiredHeight, NEEDED, NEEDED_LENGTH } from './clearance/required-height.ts';
import { BODY_AS_BUILT, tubFromAxle } from './clearance/tub-place.ts';
import type { Tub } from './tub/profile.ts';
import { fillBandShape } from './tyre/band-shape.ts';
import type { TyreSetup } from './tyre/inflated.ts';
import { BASE, fillOutlineGrid, LOBE_LENGTH, OUTLINE_LENGTH } from './tyre/outline.ts';

/** Nothing to beat: the answer is wanted whatever it is. */
const UNBEATEN = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY] as const;

/** Outline of a tyre standing still under a load at a pressure: the band's bulge, no growth, lobe or run-out. */
export function standingOutline(
  tyre: Float64Array,
  setup: TyreSetup,
  pressure: number,
  load: number,
): Float64Array {
  const standing = standingTyre(tyre, setup, pressure, load);
  const outline = new Float64Array(OUTLINE_LENGTH);
  fillBandShape(
    outline,
    standing.band.radius,
    standing.band.radialStiffness,
    standing.band.tangentialStiffness,
    standing.band.airTension,
    load,
    0,
    standing.halfPatch,
  );
  outline[BASE] = standing.freeRadius;
  fillOutlineGrid(outline, new Float64Array(LOBE_LENGTH));
  return outline;
}

/** Static gaps, m, that a fabricator sees from the tyre's points at the given hub angles (rad), standing still. */
export function staticGaps(
  tyre: Float64Array,
  tyreSetup: TyreSetup,
  pressure: number,
  load: number,
  tub: Tub,
  crownAboveAxle: number,
  angles: readonly number[],
): number[] {
  const outline = standingOutline(tyre, tyreSetup, pressure, load);
  const place = tubFromAxle(tub, crownAboveAxle, BODY_AS_BUILT);
  return angles.map((angle) => gapAtAngle(outline, tub, place, angle));
}

/**
 * Lowest top height at which a standing tyre clears a tub without any gap to spare, m above the track with the build
 * tyre; Infinity when it fits at no height.
 * @param load  vertical load on the tyre, N
 * @param axleHeight  static loaded radius of the build tyre, m
 */
export function clearsAtRest(
  tyre: Float64Array,
  tyreSetup: TyreSetup,
  pressure: number,
  load: number,
  tub: Tub,
  axleHeight: number,
): number {
  const answer = new Float64Array(NEEDED_LENGTH);
  const outline = standingOutline(tyre, tyreSetup, pressure, load);
  fillRequiredHeight(outline, tub, tub.centreForward, 0, ...UNBEATEN, answer);
  return axleHeight + answer[NEEDED]!;
}
