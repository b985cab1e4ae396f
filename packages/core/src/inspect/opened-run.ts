import { dropAtMoment, forwardAtMoment } from '../car/axle-way.ts';
import {
  fillMoments,
  HAPPENS,
  MOMENT_LENGTH,
  MOMENTS_LENGTH,
  MOVING,
  type RunSetup,
  SPRING_FORCE,
  THRUST_SHARE,
} from '../car/moments.ts';
import type { BodyPlace } from '../clearance/tub-place.ts';
import { CAR_INPUTS, carColumn, TYRE_INPUTS, tyreColumn } from '../inputs.ts';
import type { ClearanceSetup } from '../kernel.ts';
import { fillInflated, INFLATED_LENGTH, type TyreSetup } from '../tyre/inflated.ts';
import { fillMomentOutline } from '../tyre/moment-outline.ts';
import { fillLobe, LOBE_LENGTH, OUTLINE_LENGTH } from '../tyre/outline.ts';

/** Draws of one tyre's runs: one array a CAR_INPUTS name and one a TYRE_INPUTS name, SI. */
export interface RunColumns {
  car: readonly Float64Array[];
  tyre: readonly Float64Array[];
}

/** One run of a block taken out to be inspected: its draw, its moments, its tyre with air in it, and the outline in hand. */
export interface OpenedRun {
  car: Float64Array;
  tyre: Float64Array;
  moments: Float64Array;
  inflated: Float64Array;
  lobe: Float64Array;
  /** Of the moment that was opened last. */
  outline: Float64Array;
}

const AIR_TEMPERATURE = carColumn('airTemperature');
const STATION_PRESSURE = carColumn('stationPressure');
const LOBE_HEIGHT = tyreColumn('lobeHeight');
const LOBE_ANGLE = tyreColumn('lobeAngle');
const RIDE_CHANGE = tyreColumn('rideHeightChange');

/** Room for one run, used again from run to run. */
export const createOpenedRun = (): OpenedRun => ({
  car: new Float64Array(CAR_INPUTS.length),
  tyre: new Float64Array(TYRE_INPUTS.length),
  moments: new Float64Array(MOMENTS_LENGTH),
  inflated: new Float64Array(INFLATED_LENGTH),
  lobe: new Float64Array(LOBE_LENGTH),
  outline: new Float64Array(OUTLINE_LENGTH),
});

/** Takes one run of a block into `opened`. */
export function openRun(
  opened: OpenedRun,
  run: number,
  tyreSetup: TyreSetup,
  setup: RunSetup,
  columns: RunColumns,
): void {
  const { car, tyre } = opened;
  for (let c = 0; c < car.length; c++) car[c] = columns.car[c]![run]!;
  for (let c = 0; c < tyre.length; c++) tyre[c] = columns.tyre[c]![run]!;
  fillMoments(car, setup, opened.moments);
  fillInflated(tyre, tyreSetup, car[AIR_TEMPERATURE]!, car[STATION_PRESSURE]!, opened.inflated);
  fillLobe(opened.lobe, tyre[LOBE_HEIGHT]!, tyre[LOBE_ANGLE]!);
}

/**
 * Fills the closed form of an opened run's outline at one moment; its table is filled apart, with the run's lobe.
 * @param moment  index into MOMENTS
 * @returns where the body stands then; nothing when the moment is not in this run
 */
export function openMoment(
  opened: OpenedRun,
  moment: number,
  tyreSetup: TyreSetup,
  setup: ClearanceSetup,
): BodyPlace | undefined {
  const { car, tyre, moments, inflated, outline } = opened;
  const at = moment * MOMENT_LENGTH;
  if (moments[at + HAPPENS]! === 0) return undefined;
  fillMomentOutline(tyre, inflated, tyreSetup, moments, at, setup.growthFactor, outline);
  const drop = dropAtMoment(car, tyre[RIDE_CHANGE]!, moments[at + SPRING_FORCE]!, moments[at + MOVING]!);
  return { drop, forward: forwardAtMoment(car, drop, moments[at + THRUST_SHARE]!) };
}

/**
 * Where the body stands at rest on a tyre: springs that were reset for it hold the body higher before anything moves.
 * @param car  one draw of CAR_INPUTS
 * @param tyre  one draw of TYRE_INPUTS
 */
export function bodyAtRest(car: Float64Array, tyre: Float64Array): BodyPlace {
  const drop = -tyre[RIDE_CHANGE]!;
  return { drop, forward: forwardAtMoment(car, drop, 0) };
}
