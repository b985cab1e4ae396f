import { STANDARD_GRAVITY } from '../constants.ts';

/** Dynamic pressure times area, N: ½ρv²A. Body drag with C_dA, rear downforce with C_zA_r. */
export function airForce(density: number, speed: number, area: number): number {
  return 0.5 * density * speed * speed * area;
}

/**
 * Load moved from the front to the rear axle, N: (F_x h + D(h_D − h) + P(h_p − h))/L, at most what the front axle
 * carries at rest: beyond that the front wheels are in the air.
 * The parachute pulls on the car: attached below the centre of gravity it lifts the rear.
 * Source: moment balance, derived; load transfer m a h/L as in Gillespie, Fundamentals of Vehicle Dynamics (from
 * memory).
 * @param thrust  F_x of both patches, N
 * @param drag  D, N, at height `dragHeight`, m
 * @param chute  P, N, at height `chuteHeight`, m
 * @param frontWeight  static weight on the front axle, N
 */
export function loadTransfer(
  thrust: number,
  drag: number,
  chute: number,
  cgHeight: number,
  dragHeight: number,
  chuteHeight: number,
  wheelbase: number,
  frontWeight: number,
): number {
  const transfer =
    (thrust * cgHeight + drag * (dragHeight - cgHeight) + chute * (chuteHeight - cgHeight)) / wheelbase;
  return Math.min(transfer, frontWeight);
}

/** Vertical force on one rear tyre, N, never below 0: [W_r + D_r + transfer]/2. */
export function tyreLoad(rearWeight: number, downforce: number, transfer: number): number {
  return Math.max(0, 0.5 * (rearWeight + downforce + transfer));
}

/**
 * Force on one rear spring above rest, N: [D_r + transfer − AS F_x h/L]/2. The links carry the share AS of the
 * thrust's transfer; AS > 1 lifts the body under thrust and drops it when the thrust goes.
 */
export function springForce(
  downforce: number,
  transfer: number,
  thrust: number,
  antiSquat: number,
  cgHeight: number,
  wheelbase: number,
): number {
  return 0.5 * (downforce + transfer - (antiSquat * thrust * cgHeight) / wheelbase);
}

/** Force at the peak of a sudden change, N: F_after + (o − 1)(F_after − F_before). */
export function overshootForce(before: number, after: number, overshoot: number): number {
  return after + (overshoot - 1) * (after - before);
}

/**
 * Acceleration at which the front wheels leave the ground, m/s², without air forces: g (1 − rear share) L/h. Beyond it
 * the model's forces on the rear axle no longer grow. Source: moment balance about the rear patch, derived.
 * @param rearShare  static weight on the rear axle, 0 to 1
 * @param wheelbase  L, m
 * @param cgHeight  h, m, > 0
 */
export function frontLiftAcceleration(rearShare: number, wheelbase: number, cgHeight: number): number {
  return (STANDARD_GRAVITY * (1 - rearShare) * wheelbase) / cgHeight;
}
