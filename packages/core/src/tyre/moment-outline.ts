import { MOVING, TREAD_SPEED, TYRE_LOAD, TYRE_THRUST } from '../car/moments.ts';
import { tyreColumn } from '../inputs.ts';
import { airTension } from './band.ts';
import { fillBandShape } from './band-shape.ts';
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

/**
 * Fills an outline's closed form at one moment of a run; the table of radii is filled apart.
 * @param tyre  one draw of TYRE_INPUTS
 * @param inflated  as filled by `fillInflated`
 * @param moments  as filled by `fillMoments`
 * @param at  first place of the moment's record in `moments`
 * @param growthFactor  on the growth, 1 as modelled
 */
export function fillMomentOutline(
  tyre: Float64Array,
  inflated: Float64Array,
  setup: TyreSetup,
  moments: Float64Array,
  at: number,
  growthFactor: number,
  outline: Float64Array,
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
  const patch = patchHalfAngle(load, pressure, tyre[PATCH_CARCASS]!, tyre[TREAD_WIDTH]!, grown);
  fillBandShape(
    outline,
    grown,
    inflated[RADIAL_STIFFNESS]!,
    inflated[TANGENTIAL_STIFFNESS]!,
    airTension(pressure, tyre[SECTION_WIDTH]!, grown),
    load,
    moments[at + TYRE_THRUST]!,
    patch,
  );
  outline[BASE] = grown + tyre[RUN_OUT]!;
  outline[LOBE_HEIGHT] = tyre[LOBE_HEIGHT_INPUT]!;
  outline[LOBE_MIDDLE] = tyre[LOBE_ANGLE_INPUT]!;
}
