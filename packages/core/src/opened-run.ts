import { fillMoments, MOMENTS_LENGTH, type RunSetup } from './car/moments.ts';
import { CAR_INPUTS, carColumn, TYRE_INPUTS, tyreColumn } from './inputs.ts';
import { fillInflated, INFLATED_LENGTH, type TyreSetup } from './tyre/inflated.ts';
import { fillLobe, LOBE_LENGTH } from './tyre/outline.ts';

/** Draws of one tyre's runs: one array a CAR_INPUTS name and one a TYRE_INPUTS name, SI. */
export interface RunColumns {
  car: readonly Float64Array[];
  tyre: readonly Float64Array[];
}

/** One run of a block taken out for a look: its draw, its moments and its tyre with air in it. */
export interface OpenedRun {
  car: Float64Array;
  tyre: Float64Array;
  moments: Float64Array;
  inflated: Float64Array;
  lobe: Float64Array;
}

const AIR_TEMPERATURE = carColumn('airTemperature');
const STATION_PRESSURE = carColumn('stationPressure');
const LOBE_HEIGHT = tyreColumn('lobeHeight');
const LOBE_ANGLE = tyreColumn('lobeAngle');

/** Room for one run, used again from run to run. */
export const createOpenedRun = (): OpenedRun => ({
  car: new Float64Array(CAR_INPUTS.length),
  tyre: new Float64Array(TYRE_INPUTS.length),
  moments: new Float64Array(MOMENTS_LENGTH),
  inflated: new Float64Array(INFLATED_LENGTH),
  lobe: new Float64Array(LOBE_LENGTH),
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
