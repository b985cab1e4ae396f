import { STANDARD_GRAVITY } from '../constants.ts';
import { carColumn, tyreColumn } from '../inputs.ts';
import { airTension, type Band } from '../tyre/band.ts';
import { axleDrop } from '../tyre/deflection.ts';
import type { TyreSetup } from '../tyre/inflated.ts';
import { patchHalfAngle } from '../tyre/patch.ts';
import { freeRadius } from '../tyre/size.ts';

const MASS = carColumn('mass');
const REAR_SHARE = carColumn('rearShare');
const ADDED_MASS = carColumn('addedMass');

/** Vertical load of one rear tyre on the day the tub's place is set, N: what was missing then is left out. */
export function buildLoad(car: Float64Array): number {
  return 0.5 * (car[MASS]! * car[REAR_SHARE]! - car[ADDED_MASS]!) * STANDARD_GRAVITY;
}

/**
 * All that the static loaded radius depends on, as columns of CAR_INPUTS and of TYRE_INPUTS: mostly it is the car's and the
 * same in every run.
 */
export const STANCE_COLUMNS = {
  car: [MASS, REAR_SHARE, ADDED_MASS],
  tyre: (
    [
      'referenceRadius',
      'radiusPerPressure',
      'stiffnessFactor',
      'tangentialRatio',
      'patchCarcassPressure',
      'sectionWidth',
      'treadWidth',
    ] as const
  ).map(tyreColumn),
};

/** The standing tyre: its band, patch and free radius under a load at a pressure. */
export interface StandingTyre {
  freeRadius: number;
  halfPatch: number;
  band: Band;
}

/**
 * A tyre standing still at a gauge pressure in Pa under a load in N: no growth, no lobe.
 * @param tyre  one draw of TYRE_INPUTS
 */
export function standingTyre(
  tyre: Float64Array,
  setup: TyreSetup,
  pressure: number,
  load: number,
): StandingTyre {
  const radius = freeRadius(
    tyre[tyreColumn('referenceRadius')]!,
    tyre[tyreColumn('radiusPerPressure')]!,
    pressure,
    setup.referencePressure,
  );
  const radialStiffness = setup.radialStiffness * tyre[tyreColumn('stiffnessFactor')]!;
  return {
    freeRadius: radius,
    halfPatch: patchHalfAngle(
      load,
      pressure,
      tyre[tyreColumn('patchCarcassPressure')]!,
      tyre[tyreColumn('treadWidth')]!,
      radius,
    ),
    band: {
      radius,
      radialStiffness,
      tangentialStiffness: radialStiffness * tyre[tyreColumn('tangentialRatio')]!,
      airTension: airTension(pressure, tyre[tyreColumn('sectionWidth')]!, radius),
      bending: 0,
    },
  };
}

/**
 * Static loaded radius a₀, m: axle height above the track with the build tyre at the build pressure.
 * @param car  one draw of CAR_INPUTS
 * @param tyre  one draw of the build tyre's TYRE_INPUTS
 * @param pressure  build pressure, gauge, Pa
 */
export function staticLoadedRadius(
  car: Float64Array,
  tyre: Float64Array,
  setup: TyreSetup,
  pressure: number,
): number {
  return loadedRadius(tyre, setup, pressure, buildLoad(car));
}

/** Loaded radius of a tyre standing still, m: axle above the ground at a gauge pressure in Pa under a load in N. */
export function loadedRadius(tyre: Float64Array, setup: TyreSetup, pressure: number, load: number): number {
  const standing = standingTyre(tyre, setup, pressure, load);
  return standing.freeRadius - axleDrop(standing.band, load, standing.halfPatch);
}
