import { MOVING, TREAD_SPEED, TYRE_LOAD, TYRE_THRUST } from '../car/moments.ts';
import { tyreColumn } from '../inputs.ts';
import { airTension } from './band.ts';
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
import { patchHalfAngle } from './patch.ts';

/** Places in the record of what the band's shape at one moment of a run is made of. */
export const GROWN = 0; // R₀ + g, m
export const TENSION = 1; // τ, N/m²
export const RADIAL_SPRING = 2; // k_w, N/m²
export const TANGENTIAL_SPRING = 3; // k_v, N/m²
export const LOAD = 4; // F_z, N
export const THRUST = 5; // F_x, N
export const PATCH = 6; // α, rad
export const LOADED_LENGTH = 7;

const SECTION_WIDTH = tyreColumn('sectionWidth');
const TREAD_WIDTH = tyreColumn('treadWidth');
const PATCH_CARCASS = tyreColumn('patchCarcassPressure');

/**
 * Fills the record of a tyre at one moment of a run.
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
  loaded[RADIAL_SPRING] = inflated[RADIAL_STIFFNESS]!;
  loaded[TANGENTIAL_SPRING] = inflated[TANGENTIAL_STIFFNESS]!;
  loaded[LOAD] = load;
  loaded[THRUST] = moments[at + TYRE_THRUST]!;
  loaded[PATCH] = patchHalfAngle(load, pressure, tyre[PATCH_CARCASS]!, tyre[TREAD_WIDTH]!, grown);
}
