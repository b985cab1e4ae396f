/** Numbers of a solved run down the track, in this order in a Float64Array. */
export const SHIFT_SPEED = 0; // m/s, where grip stops limiting and power begins to
export const SHIFT_DISTANCE = 1; // m
export const SPECIFIC_POWER = 2; // W/kg at the tread, drag included
export const TRACK_RUN_LENGTH = 3;

/** Newton steps; five reach the last bit from the drag-free start, the rest are idle. */
const STEPS = 12;

/** Written out: a power by `**` costs more than all the rest of a Newton step. */
const cubed = (value: number): number => value * value * value;

/** Cube of the speed at `distance` in the power-limited part: v³ = q/k + (v₁³ − q/k) e^{−3k(x − x₁)}. */
function cubeAfter(power: number, dragPerMass: number, shiftSpeed: number, length: number): number {
  const shrink = Math.expm1(-3 * dragPerMass * length);
  return (-power * shrink) / dragPerMass + cubed(shiftSpeed) * (1 + shrink);
}

/**
 * Fits a point mass to what a time slip shows: constant net acceleration while grip limits, then constant power
 * against v² drag, so that the speed at the end of the track is the trap speed. Rolling resistance is left out of
 * the power-limited part, where it is about one part in fifty of the thrust and the fit to the trap speed absorbs it.
 * Source: derived; with no drag v³ grows by 3q per metre.
 * @param run  TRACK_RUN_LENGTH numbers, overwritten
 * @param launchAcceleration  m/s², > 0
 * @param trapSpeed  m/s, > 0
 * @param distance  m, > 0
 * @param dragPerMass  ½ρC_dA/m, 1/m, > 0
 * When the launch acceleration alone cannot reach the trap speed over the distance, the whole run is taken at the
 * constant acceleration that does.
 */
export function solveTrackRun(
  run: Float64Array,
  launchAcceleration: number,
  trapSpeed: number,
  distance: number,
  dragPerMass: number,
): void {
  const k = dragPerMass;
  const a = launchAcceleration;
  if (trapSpeed * trapSpeed >= 2 * a * distance) {
    run[SHIFT_SPEED] = trapSpeed;
    run[SHIFT_DISTANCE] = distance;
    run[SPECIFIC_POWER] = cubed(trapSpeed) / (2 * distance) + k * cubed(trapSpeed);
    return;
  }
  const target = cubed(trapSpeed);
  let speed = Math.min(0.95 * trapSpeed, target / (3 * distance * a));
  for (let step = 0; step < STEPS; step++) {
    const power = speed * (a + k * speed * speed);
    const length = distance - (speed * speed) / (2 * a);
    const shrink = Math.expm1(-3 * k * length);
    const cube = (-power * shrink) / k + cubed(speed) * (1 + shrink);
    const growth = 3 * speed * (k * (speed * speed) - power / speed) * (1 + shrink);
    const slope =
      (-(a + 3 * k * speed * speed) * shrink) / k + 3 * speed * speed * (1 + shrink) + (growth * speed) / a;
    const change = (target - cube) / slope;
    speed = Math.min(0.999 * trapSpeed, Math.max(0.1 * speed, speed + change));
    if (Math.abs(change) < 1e-13 * speed) break;
  }
  run[SHIFT_SPEED] = speed;
  run[SHIFT_DISTANCE] = (speed * speed) / (2 * a);
  run[SPECIFIC_POWER] = speed * (a + k * speed * speed);
}

/** Speed at a distance from the start, m/s, of a solved run. */
export function speedAt(run: Float64Array, dragPerMass: number, distance: number): number {
  const shift = run[SHIFT_DISTANCE]!;
  if (distance <= shift) return run[SHIFT_SPEED]! * Math.sqrt(distance / shift);
  return Math.cbrt(cubeAfter(run[SPECIFIC_POWER]!, dragPerMass, run[SHIFT_SPEED]!, distance - shift));
}

/**
 * Net acceleration in the grip-limited part, m/s²: v₁²/2x₁. The launch acceleration that was asked for, unless it
 * cannot reach the trap speed.
 */
export function gripLimitedAcceleration(run: Float64Array): number {
  return (run[SHIFT_SPEED]! * run[SHIFT_SPEED]!) / (2 * run[SHIFT_DISTANCE]!);
}

/** Net acceleration at a speed in the power-limited part, m/s²: q/v − kv². */
export function powerLimitedAcceleration(run: Float64Array, dragPerMass: number, speed: number): number {
  return run[SPECIFIC_POWER]! / speed - dragPerMass * speed * speed;
}
