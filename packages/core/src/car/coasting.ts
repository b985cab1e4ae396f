import { STANDARD_GRAVITY } from '../constants.ts';
import { carColumn } from '../inputs.ts';
import { airForce, loadTransfer, tyreLoad } from './force.ts';
import { dayDensity } from './moments.ts';

/**
 * Vertical load of one rear tyre of a car that rolls freely at a speed, N: no thrust, no parachute.
 * @param car  one draw of CAR_INPUTS
 * @param speed  m/s
 */
export function coastingLoad(car: Float64Array, speed: number): number {
  const value = (name: Parameters<typeof carColumn>[0]): number => car[carColumn(name)]!;
  const density = dayDensity(car);
  const weight = value('mass') * STANDARD_GRAVITY;
  const rear = weight * value('rearShare');
  const transfer = loadTransfer(
    0,
    airForce(density, speed, value('dragArea')),
    0,
    value('cgHeight'),
    value('dragHeight'),
    value('chuteHeight'),
    value('wheelbase'),
    weight - rear,
  );
  return tyreLoad(rear, airForce(density, speed, value('downforceArea')), transfer);
}
