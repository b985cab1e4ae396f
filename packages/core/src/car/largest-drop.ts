import { tyreColumn } from '../inputs.ts';
import { dropAtMoment } from './axle-way.ts';
import {
  fillMoments,
  HAPPENS,
  MOMENT_LENGTH,
  MOMENTS_LENGTH,
  MOVING,
  type RunSetup,
  SPRING_FORCE,
} from './moments.ts';

const RIDE_CHANGE = tyreColumn('rideHeightChange');
const moments = new Float64Array(MOMENTS_LENGTH);

/**
 * Furthest that the body drops in one run, m at the wheel, bumps included: what a tell-tale on the shock shows.
 * @param car  one draw of CAR_INPUTS
 * @param tyre  one draw of TYRE_INPUTS
 */
export function largestDrop(car: Float64Array, tyre: Float64Array, setup: RunSetup): number {
  fillMoments(car, setup, moments);
  let largest = Number.NEGATIVE_INFINITY;
  for (let at = 0; at < MOMENTS_LENGTH; at += MOMENT_LENGTH) {
    if (moments[at + HAPPENS]! === 0 || moments[at + MOVING]! === 0) continue;
    largest = Math.max(largest, dropAtMoment(car, tyre[RIDE_CHANGE]!, moments[at + SPRING_FORCE]!, 1));
  }
  return largest;
}
