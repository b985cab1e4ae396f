import { tyreColumn } from '../inputs.ts';
import { type Construction, GROWTH_LAWS } from './growth-laws.ts';
import { hotPressure } from './pressure.ts';
import { freeRadius } from './size.ts';

/** Fixed facts of one tyre of a case. */
export interface TyreSetup {
  construction: Construction;
  /** Gauge pressure at which `referenceRadius` was taped, Pa. */
  referencePressure: number;
  /** k_w of the middle tyre, N/m², from its measured axle drop (`radialStiffnessFromDrop`). */
  radialStiffness: number;
}

/** Places in the record of a tyre with air in it, one draw; hot while the car runs, cold in the burnout. */
export const HOT_PRESSURE = 0; // Pa, gauge
export const HOT_RADIUS = 1; // m
export const HOT_GROWTH = 2; // parameter of its law
export const COLD_PRESSURE = 3;
export const COLD_RADIUS = 4;
export const COLD_GROWTH = 5;
export const GROWTH_SCALE = 6; // scale of its law
export const RADIAL_STIFFNESS = 7; // k_w, N/m²
export const TANGENTIAL_STIFFNESS = 8; // k_v, N/m²
export const INFLATED_LENGTH = 9;

const REFERENCE_RADIUS = tyreColumn('referenceRadius');
const RADIUS_PER_PRESSURE = tyreColumn('radiusPerPressure');
const STIFFNESS_FACTOR = tyreColumn('stiffnessFactor');
const TANGENTIAL_RATIO = tyreColumn('tangentialRatio');
const PRESSURE = tyreColumn('coldPressure');
const AIR_HEATING = tyreColumn('airHeating');
const VOLUME_RATIO = tyreColumn('volumeRatio');

/**
 * Fills what a tyre's air and carcass give before the car moves.
 * @param tyre  one draw of TYRE_INPUTS, SI
 * @param airTemperature  K, of the day: the pressure is set at it
 * @param stationPressure  Pa
 * @param inflated  INFLATED_LENGTH numbers, overwritten
 */
export function fillInflated(
  tyre: Float64Array,
  setup: TyreSetup,
  airTemperature: number,
  stationPressure: number,
  inflated: Float64Array,
): void {
  const law = GROWTH_LAWS[setup.construction];
  const cold = tyre[PRESSURE]!;
  const hot = hotPressure(
    cold,
    airTemperature,
    airTemperature + tyre[AIR_HEATING]!,
    tyre[VOLUME_RATIO]!,
    stationPressure,
  );
  const coldRadius = freeRadius(
    tyre[REFERENCE_RADIUS]!,
    tyre[RADIUS_PER_PRESSURE]!,
    cold,
    setup.referencePressure,
  );
  const hotRadius = freeRadius(
    tyre[REFERENCE_RADIUS]!,
    tyre[RADIUS_PER_PRESSURE]!,
    hot,
    setup.referencePressure,
  );
  const stiffness = setup.radialStiffness * tyre[STIFFNESS_FACTOR]!;
  inflated[HOT_PRESSURE] = hot;
  inflated[HOT_RADIUS] = hotRadius;
  inflated[HOT_GROWTH] = law.parameter(tyre, hot, hotRadius);
  inflated[COLD_PRESSURE] = cold;
  inflated[COLD_RADIUS] = coldRadius;
  inflated[COLD_GROWTH] = law.parameter(tyre, cold, coldRadius);
  inflated[GROWTH_SCALE] = law.scale(tyre);
  inflated[RADIAL_STIFFNESS] = stiffness;
  inflated[TANGENTIAL_STIFFNESS] = stiffness * tyre[TANGENTIAL_RATIO]!;
}

/**
 * Growth, m, of an inflated tyre at a tread speed, by its construction's law.
 * @param factor  on the growth, 1 as modelled, 1.25 for the case of a growth one quarter larger
 */
export function inflatedGrowth(
  construction: Construction,
  speed: number,
  scale: number,
  radius: number,
  parameter: number,
  factor: number,
): number {
  return factor * GROWTH_LAWS[construction].growth(speed, scale, radius, parameter);
}
