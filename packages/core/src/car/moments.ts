import { moistAirDensity } from '../air/moist.ts';
import { STANDARD_GRAVITY } from '../constants.ts';
import { carColumn } from '../inputs.ts';
import { airForce, loadTransfer, overshootForce, springForce, tyreLoad } from './force.ts';
import {
  gripLimitedAcceleration,
  powerLimitedAcceleration,
  SHIFT_DISTANCE,
  SHIFT_SPEED,
  solveTrackRun,
  speedAt,
  TRACK_RUN_LENGTH,
} from './track-run.ts';

/** The moments of one run, in the order of the track. */
export const MOMENTS = [
  'burnout',
  'launch',
  'gear change',
  'middle',
  'grip lost',
  'finish',
  'after the lift',
  'parachute',
] as const;
export type Moment = (typeof MOMENTS)[number];

/** Places within one moment's record. */
export const CAR_SPEED = 0; // m/s
export const TREAD_SPEED = 1; // m/s, slip included
export const TYRE_THRUST = 2; // N, F_x of one tyre
export const TYRE_LOAD = 3; // N, F_z of one tyre
export const SPRING_FORCE = 4; // N above rest, roll, overshoot and added mass included
export const THRUST_SHARE = 5; // 1, thrust over the launch's thrust
export const HAPPENS = 6; // 1 when the moment belongs to this run
export const MOVING = 7; // 1 when the car moves: bumps count, tyre air is hot
export const DOWNFORCE = 8; // N, both rear tyres
export const DRAG = 9; // N
export const ACCELERATION = 10; // m/s², net
export const TRANSFER = 11; // N
export const MOMENT_LENGTH = 12;

/** Length of a table of all moments of one run. */
export const MOMENTS_LENGTH = MOMENTS.length * MOMENT_LENGTH;

/** The launch is taken this far from the start, m: full thrust, hardly any growth. */
export const LAUNCH_DISTANCE = 3;

/** Fixed facts of the runs of one case. */
export interface RunSetup {
  /** From the start to the trap, m. */
  distance: number;
  /** Whether `finishAcceleration` is in m/s² or a factor on what the point mass gives. */
  finishAccelerationIs: 'absolute' | 'relative';
  /** Chance that grip is lost in mid-track in a run, 0 to 1. */
  gripLostChance: number;
}

const MASS = carColumn('mass');
const REAR_SHARE = carColumn('rearShare');
const WHEELBASE = carColumn('wheelbase');
const CG_HEIGHT = carColumn('cgHeight');
const DRAG_AREA = carColumn('dragArea');
const DRAG_HEIGHT = carColumn('dragHeight');
const DOWNFORCE_AREA = carColumn('downforceArea');
const ROLLING = carColumn('rollingCoefficient');
const WHEEL_RATE = carColumn('wheelRate');
const ANTI_SQUAT = carColumn('antiSquat');
const TORQUE_ROLL = carColumn('torqueRoll');
const ADDED_MASS = carColumn('addedMass');
const TRAP_SPEED = carColumn('trapSpeed');
const LAUNCH_ACCELERATION = carColumn('launchAcceleration');
const FINISH_ACCELERATION = carColumn('finishAcceleration');
const SLIP_LAUNCH = carColumn('slipAtLaunch');
const SLIP_UNDERWAY = carColumn('slipUnderway');
const SLIP_GRIP_LOST = carColumn('slipGripLost');
const GRIP_LOST_TOSS = carColumn('gripLostToss');
const SLIP_FINISH = carColumn('slipAtFinish');
const BURNOUT_SPEED = carColumn('burnoutSpeed');
const BURNOUT_THRUST = carColumn('burnoutThrust');
const GEAR_OVERSHOOT = carColumn('gearOvershoot');
const LIFT_OVERSHOOT = carColumn('liftOvershoot');
const CHUTE_DECELERATION = carColumn('chuteDeceleration');
const CHUTE_HEIGHT = carColumn('chuteHeight');
const AIR_TEMPERATURE = carColumn('airTemperature');
const STATION_PRESSURE = carColumn('stationPressure');
const HUMIDITY = carColumn('humidity');

const trackRun = new Float64Array(TRACK_RUN_LENGTH);

/** Air density of the day, kg/m³, of one draw of the car inputs. */
export function dayDensity(car: Float64Array): number {
  return moistAirDensity(car[AIR_TEMPERATURE]!, car[STATION_PRESSURE]!, car[HUMIDITY]!);
}

/** Fills one record: forces of a car at `speed`, its thrust and parachute known. Returns the spring force without extras. */
function fillForces(
  car: Float64Array,
  moments: Float64Array,
  at: number,
  density: number,
  speed: number,
  slip: number,
  thrust: number,
  chute: number,
  launchThrust: number,
): number {
  const weight = car[MASS]! * STANDARD_GRAVITY;
  const rearWeight = weight * car[REAR_SHARE]!;
  const downforce = airForce(density, speed, car[DOWNFORCE_AREA]!);
  const drag = airForce(density, speed, car[DRAG_AREA]!);
  const transfer = loadTransfer(
    thrust,
    drag,
    chute,
    car[CG_HEIGHT]!,
    car[DRAG_HEIGHT]!,
    car[CHUTE_HEIGHT]!,
    car[WHEELBASE]!,
    weight - rearWeight,
  );
  moments[at + CAR_SPEED] = speed;
  moments[at + TREAD_SPEED] = speed * (1 + slip);
  moments[at + TYRE_THRUST] = 0.5 * thrust;
  moments[at + TYRE_LOAD] = tyreLoad(rearWeight, downforce, transfer);
  moments[at + THRUST_SHARE] = thrust / launchThrust;
  moments[at + HAPPENS] = 1;
  moments[at + MOVING] = 1;
  moments[at + DOWNFORCE] = downforce;
  moments[at + DRAG] = drag;
  moments[at + ACCELERATION] = (thrust - drag - chute - car[ROLLING]! * weight) / car[MASS]!;
  moments[at + TRANSFER] = transfer;
  return springForce(downforce, transfer, thrust, car[ANTI_SQUAT]!, car[CG_HEIGHT]!, car[WHEELBASE]!);
}

/**
 * Fills the car's side of every moment of one run: speeds, forces at one rear tyre and at one rear spring.
 *
 * - burnout: the car stands on its front brakes, so its thrust moves no load and the links' lift is not credited.
 * - launch: grip-limited, 3 m from the start.
 * - gear change: where power takes over from grip; the thrust comes back with an overshoot. The cut itself has no
 *   record: where it drops the body (anti-squat above 1) the lift drops it too, with far more growth and downforce.
 * - middle and grip lost: half way; grip lost keeps the thrust and raises the tread speed.
 * - after the lift: thrust gone, downforce still there; parachute: the same speed, before it has slowed the car.
 * Torque roll counts as the force that would roll the worse side by that much, so the stop limits it.
 * @param car  one draw of CAR_INPUTS, SI
 * @param moments  MOMENTS_LENGTH numbers from `first` on, overwritten
 */
export function fillMoments(car: Float64Array, setup: RunSetup, moments: Float64Array, first = 0): void {
  const mass = car[MASS]!;
  const weight = mass * STANDARD_GRAVITY;
  const rolling = car[ROLLING]! * weight;
  const density = dayDensity(car);
  const dragPerMass = (0.5 * density * car[DRAG_AREA]!) / mass;
  const trapSpeed = car[TRAP_SPEED]!;
  solveTrackRun(trackRun, car[LAUNCH_ACCELERATION]!, trapSpeed, setup.distance, dragPerMass);
  const launchAcceleration = gripLimitedAcceleration(trackRun);
  const dragArea = car[DRAG_AREA]!;

  const launchSpeed = Math.sqrt(2 * launchAcceleration * LAUNCH_DISTANCE);
  const launchThrust = mass * launchAcceleration + airForce(density, launchSpeed, dragArea) + rolling;
  const shiftSpeed = trackRun[SHIFT_SPEED]!;
  const shiftThrust = mass * launchAcceleration + airForce(density, shiftSpeed, dragArea) + rolling;
  const half = 0.5 * setup.distance;
  const middleSpeed = speedAt(trackRun, dragPerMass, half);
  const middleAcceleration =
    half <= trackRun[SHIFT_DISTANCE]!
      ? launchAcceleration
      : powerLimitedAcceleration(trackRun, dragPerMass, middleSpeed);
  const middleThrust = mass * middleAcceleration + airForce(density, middleSpeed, dragArea) + rolling;
  const finishAcceleration =
    setup.finishAccelerationIs === 'absolute'
      ? car[FINISH_ACCELERATION]!
      : car[FINISH_ACCELERATION]! * powerLimitedAcceleration(trackRun, dragPerMass, trapSpeed);
  const finishThrust = Math.max(
    0,
    mass * finishAcceleration + airForce(density, trapSpeed, dragArea) + rolling,
  );
  const chute = mass * car[CHUTE_DECELERATION]!;

  const burnoutThrust = car[BURNOUT_THRUST]! * weight * car[REAR_SHARE]!;
  moments.fill(0, first, first + MOMENT_LENGTH);
  moments[first + TREAD_SPEED] = car[BURNOUT_SPEED]!;
  moments[first + TYRE_THRUST] = 0.5 * burnoutThrust;
  moments[first + TYRE_LOAD] = 0.5 * weight * car[REAR_SHARE]!;
  moments[first + THRUST_SHARE] = burnoutThrust / launchThrust;
  moments[first + HAPPENS] = 1;

  let at = first + MOMENT_LENGTH;
  moments[at + SPRING_FORCE] = fillForces(
    car,
    moments,
    at,
    density,
    launchSpeed,
    car[SLIP_LAUNCH]!,
    launchThrust,
    0,
    launchThrust,
  );

  at += MOMENT_LENGTH;
  const shiftCut = fillForces(car, moments, at, density, shiftSpeed, 0, 0, 0, launchThrust);
  const shiftBack = fillForces(
    car,
    moments,
    at,
    density,
    shiftSpeed,
    car[SLIP_UNDERWAY]!,
    shiftThrust,
    0,
    launchThrust,
  );
  moments[at + SPRING_FORCE] = overshootForce(shiftCut, shiftBack, car[GEAR_OVERSHOOT]!);

  at += MOMENT_LENGTH;
  moments[at + SPRING_FORCE] = fillForces(
    car,
    moments,
    at,
    density,
    middleSpeed,
    car[SLIP_UNDERWAY]!,
    middleThrust,
    0,
    launchThrust,
  );

  at += MOMENT_LENGTH;
  moments[at + SPRING_FORCE] = fillForces(
    car,
    moments,
    at,
    density,
    middleSpeed,
    car[SLIP_GRIP_LOST]!,
    middleThrust,
    0,
    launchThrust,
  );
  moments[at + HAPPENS] = car[GRIP_LOST_TOSS]! < setup.gripLostChance ? 1 : 0;

  at += MOMENT_LENGTH;
  const finishForce = fillForces(
    car,
    moments,
    at,
    density,
    trapSpeed,
    car[SLIP_FINISH]!,
    finishThrust,
    0,
    launchThrust,
  );
  moments[at + SPRING_FORCE] = finishForce;

  at += MOMENT_LENGTH;
  const liftForce = fillForces(car, moments, at, density, trapSpeed, 0, 0, 0, launchThrust);
  moments[at + SPRING_FORCE] = overshootForce(finishForce, liftForce, car[LIFT_OVERSHOOT]!);

  at += MOMENT_LENGTH;
  const chuteForce = fillForces(car, moments, at, density, trapSpeed, 0, 0, chute, launchThrust);
  moments[at + SPRING_FORCE] = overshootForce(liftForce, chuteForce, car[LIFT_OVERSHOOT]!);

  const standing = 0.5 * car[ADDED_MASS]! * STANDARD_GRAVITY;
  const roll = car[WHEEL_RATE]! * car[TORQUE_ROLL]!;
  for (let place = first; place < first + MOMENTS_LENGTH; place += MOMENT_LENGTH) {
    moments[place + SPRING_FORCE]! += standing + roll * moments[place + THRUST_SHARE]!;
  }
}
