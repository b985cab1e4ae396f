import { carColumn } from '../inputs.ts';
import { bodyDrop } from './travel.ts';

const WHEEL_RATE = carColumn('wheelRate');
const BUMP_TRAVEL = carColumn('bumpTravel');
const STOP_RATE = carColumn('stopRate');
const DROOP_TRAVEL = carColumn('droopTravel');
const BUMP = carColumn('bump');
const PATH_SLOPE = carColumn('axlePathSlope');
const GIVE = carColumn('bushingGive');

/** Drop of the body at a moment, m, from the spring force on, with this tyre's ride height and the bump allowance. */
export function dropAtMoment(
  carDraw: Float64Array,
  rideChange: number,
  force: number,
  moving: number,
): number {
  return (
    bodyDrop(
      force,
      carDraw[WHEEL_RATE]!,
      carDraw[BUMP_TRAVEL]! + rideChange,
      carDraw[STOP_RATE]!,
      carDraw[DROOP_TRAVEL]! - rideChange,
    ) -
    rideChange +
    moving * carDraw[BUMP]!
  );
}

/** Forward movement of the axle under the body at a moment, m: slope · drop + give · share of the launch's thrust. */
export function forwardAtMoment(carDraw: Float64Array, drop: number, thrustShare: number): number {
  return carDraw[PATH_SLOPE]! * drop + carDraw[GIVE]! * thrustShare;
}
