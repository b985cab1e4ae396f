import { tyreColumn } from '../inputs.ts';
import { fillBandShape } from './band-shape.ts';
import { BULGE_LENGTH, CROWN_BULGE, fillBulgeBound, SIDE_BULGE } from './bulge-bound.ts';
import type { TyreSetup } from './inflated.ts';
import {
  fillLoadedTyre,
  GROWN,
  LOAD,
  LOADED_LENGTH,
  PATCH,
  RADIAL_SPRING,
  TANGENTIAL_SPRING,
  TENSION,
  THRUST,
} from './loaded-tyre.ts';
import { BASE, LOBE_HEIGHT, LOBE_MIDDLE } from './outline.ts';

const LOBE_HEIGHT_INPUT = tyreColumn('lobeHeight');
const LOBE_ANGLE_INPUT = tyreColumn('lobeAngle');
const RUN_OUT = tyreColumn('runOut');

const bulge = new Float64Array(BULGE_LENGTH);
const loadedTyre = new Float64Array(LOADED_LENGTH);

/**
 * Fills an outline's closed form from a loaded tyre; the table of radii is filled apart.
 * @param tyre  one draw of TYRE_INPUTS
 * @param loaded  as filled by `fillLoadedTyre` from it
 */
export function fillLoadedOutline(tyre: Float64Array, loaded: Float64Array, outline: Float64Array): void {
  fillBandShape(
    outline,
    loaded[GROWN]!,
    loaded[RADIAL_SPRING]!,
    loaded[TANGENTIAL_SPRING]!,
    loaded[TENSION]!,
    loaded[LOAD]!,
    loaded[THRUST]!,
    loaded[PATCH]!,
  );
  outline[BASE] = loaded[GROWN]! + tyre[RUN_OUT]!;
  outline[LOBE_HEIGHT] = tyre[LOBE_HEIGHT_INPUT]!;
  outline[LOBE_MIDDLE] = tyre[LOBE_ANGLE_INPUT]!;
}

/** Both steps, for whoever wants the outline of every moment. */
export function fillMomentOutline(
  tyre: Float64Array,
  inflated: Float64Array,
  setup: TyreSetup,
  moments: Float64Array,
  at: number,
  growthFactor: number,
  outline: Float64Array,
): void {
  fillLoadedTyre(tyre, inflated, setup, moments, at, growthFactor, loadedTyre);
  fillLoadedOutline(tyre, loadedTyre, outline);
}

/** Places in the record of a round tyre: radii in m that the outline does not exceed within ±100° and within ±120°. */
export const ROUND_LARGEST = 0;
export const ROUND_WIDEST = 1;
export const ROUND_LENGTH = 2;

/**
 * Fills a round tyre that surely holds the outline of a loaded one, without computing that; Infinity where the bound on
 * the band's bulge does not reach.
 * @param tyre  one draw of TYRE_INPUTS
 * @param loaded  as filled by `fillLoadedTyre` from it
 * @param round  ROUND_LENGTH numbers, overwritten
 */
export function fillRound(tyre: Float64Array, loaded: Float64Array, round: Float64Array): void {
  fillBulgeBound(loaded, bulge);
  const base = loaded[GROWN]! + tyre[RUN_OUT]! + Math.max(0, tyre[LOBE_HEIGHT_INPUT]!);
  round[ROUND_LARGEST] = base + bulge[CROWN_BULGE]!;
  round[ROUND_WIDEST] = base + bulge[SIDE_BULGE]!;
}
