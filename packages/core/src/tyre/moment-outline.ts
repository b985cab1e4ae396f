import { MOVING, TREAD_SPEED, TYRE_LOAD, TYRE_THRUST } from '../car/moments.ts';
import { tyreColumn } from '../inputs.ts';
import { airTension } from './band.ts';
import { fillBandShape } from './band-shape.ts';
import { BULGE_LENGTH, CROWN_BULGE, fillBulgeBound, SIDE_BULGE } from './bulge-bound.ts';
import {
  COLD_GROWTH,
  COLD_PRESSURE,
  COLD_RADIUS,
  GROWTH_SCALE,
  HOT_GROWTH,
  HOT_PRESSURE,
  HOT_RADIUS,
  inflatedGrowth,
  RADIAL_STIFFNESS,
  TANGENTIAL_STIFFNESS,
  type TyreSetup,
} from './inflated.ts';
import { BASE, LOBE_HEIGHT, LOBE_MIDDLE } from './outline.ts';
import { patchHalfAngle } from './patch.ts';

const SECTION_WIDTH = tyreColumn('sectionWidth');
const TREAD_WIDTH = tyreColumn('treadWidth');
const PATCH_CARCASS = tyreColumn('patchCarcassPressure');
const LOBE_HEIGHT_INPUT = tyreColumn('lobeHeight');
const LOBE_ANGLE_INPUT = tyreColumn('lobeAngle');
const RUN_OUT = tyreColumn('runOut');

const bulge = new Float64Array(BULGE_LENGTH);

/** Places in the record of a loaded tyre at one moment of a run, free of lobe and run-out. */
const GROWN = 0; // R₀ + g, m
const TENSION = 1; // τ, N/m²
const LOAD = 2; // F_z, N
const THRUST = 3; // F_x, N
const PATCH = 4; // α, rad
export const LOADED_LENGTH = 5;

/**
 * Fills what the band's shape at one moment of a run is made of.
 * @param tyre  one draw of TYRE_INPUTS
 * @param inflated  as filled by `fillInflated`
 * @param moments  as filled by `fillMoments`
 * @param at  first place of the moment's record in `moments`
 * @param growthFactor  on the growth, 1 as modelled
 * @param loaded  LOADED_LENGTH numbers, overwritten
 */
export function fillLoadedTyre(
  tyre: Float64Array,
  inflated: Float64Array,
  setup: TyreSetup,
  moments: Float64Array,
  at: number,
  growthFactor: number,
  loaded: Float64Array,
): void {
  const hot = moments[at + MOVING]! !== 0;
  const pressure = inflated[hot ? HOT_PRESSURE : COLD_PRESSURE]!;
  const free = inflated[hot ? HOT_RADIUS : COLD_RADIUS]!;
  const growth = inflatedGrowth(
    setup.construction,
    moments[at + TREAD_SPEED]!,
    inflated[GROWTH_SCALE]!,
    free,
    inflated[hot ? HOT_GROWTH : COLD_GROWTH]!,
    growthFactor,
  );
  const grown = free + growth;
  const load = moments[at + TYRE_LOAD]!;
  loaded[GROWN] = grown;
  loaded[TENSION] = airTension(pressure, tyre[SECTION_WIDTH]!, grown);
  loaded[LOAD] = load;
  loaded[THRUST] = moments[at + TYRE_THRUST]!;
  loaded[PATCH] = patchHalfAngle(load, pressure, tyre[PATCH_CARCASS]!, tyre[TREAD_WIDTH]!, grown);
}

/**
 * Fills an outline's closed form from a loaded tyre; the table of radii is filled apart.
 * @param loaded  as filled by `fillLoadedTyre`
 */
export function fillLoadedOutline(
  tyre: Float64Array,
  inflated: Float64Array,
  loaded: Float64Array,
  outline: Float64Array,
): void {
  fillBandShape(
    outline,
    loaded[GROWN]!,
    inflated[RADIAL_STIFFNESS]!,
    inflated[TANGENTIAL_STIFFNESS]!,
    loaded[TENSION]!,
    loaded[LOAD]!,
    loaded[THRUST]!,
    loaded[PATCH]!,
  );
  outline[BASE] = loaded[GROWN]! + tyre[RUN_OUT]!;
  outline[LOBE_HEIGHT] = tyre[LOBE_HEIGHT_INPUT]!;
  outline[LOBE_MIDDLE] = tyre[LOBE_ANGLE_INPUT]!;
}

const loadedTyre = new Float64Array(LOADED_LENGTH);

/** Both at once, for whoever wants every outline. */
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
  fillLoadedOutline(tyre, inflated, loadedTyre, outline);
}

/** Places in the record of a round tyre: radii in m that the outline does not exceed within ±100° and within ±120°. */
export const ROUND_LARGEST = 0;
export const ROUND_WIDEST = 1;
export const ROUND_LENGTH = 2;

/**
 * Fills a round tyre that surely holds the outline of a loaded one, without computing that; Infinity where the bound on
 * the band's bulge does not reach.
 * @param round  ROUND_LENGTH numbers, overwritten
 */
export function fillRound(
  tyre: Float64Array,
  inflated: Float64Array,
  loaded: Float64Array,
  round: Float64Array,
): void {
  const grown = loaded[GROWN]!;
  fillBulgeBound(
    grown,
    inflated[RADIAL_STIFFNESS]!,
    inflated[TANGENTIAL_STIFFNESS]!,
    loaded[TENSION]!,
    loaded[LOAD]!,
    loaded[THRUST]!,
    loaded[PATCH]!,
    bulge,
  );
  const base = grown + tyre[RUN_OUT]! + Math.max(0, tyre[LOBE_HEIGHT_INPUT]!);
  round[ROUND_LARGEST] = base + bulge[CROWN_BULGE]!;
  round[ROUND_WIDEST] = base + bulge[SIDE_BULGE]!;
}
