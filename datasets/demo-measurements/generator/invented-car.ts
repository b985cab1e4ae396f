/**
 * An invented car and slick for the demo's measurements, SI. Its tyre does not follow the growth law of the model: the
 * band is held by a sidewall that hardens with the cube of the growth, so that learning from it is not tested on itself.
 */
export interface InventedCar {
  /** kg; of the tread band per length, kg/m. */
  mass: number;
  bandMass: number;
  /** Free radius hot, m. */
  freeRadius: number;
  /** Sidewall, N/m² and N/m⁴ per length of the band. */
  sidewall: { linear: number; cubic: number };
  /** Axle drop per load, N/m, and the share of the drop by which the rolling radius is less than the grown one. */
  verticalStiffness: number;
  rollingShare: number;
  /** W at the tread; of the static weight on the rear axle; 1. */
  power: number;
  rearShare: number;
  grip: number;
  /** m². */
  dragArea: number;
  downforceArea: number;
  parachuteArea: number;
  /** m */
  track: number;
  axleRatio: number;
}

export const DEMO_CAR: InventedCar = {
  mass: 1127,
  bandMass: 4.15,
  freeRadius: 0.4295,
  sidewall: { linear: 0.95e6, cubic: 1.21e9 },
  verticalStiffness: 255e3,
  rollingShare: 0.31,
  power: 1.44e6,
  rearShare: 0.52,
  grip: 2.35,
  dragArea: 0.6,
  downforceArea: 0.93,
  parachuteArea: 2.6,
  track: 402.336,
  axleRatio: 4.29,
};

const AIR = 1.16;
export const GRAVITY = 9.80665;

/** Growth of the invented tyre, m, from the balance of the band: μ v²/(R + g) = k g + c g³. */
export function inventedGrowth(car: InventedCar, speed: number): number {
  const { linear, cubic } = car.sidewall;
  let growth = 0;
  for (let step = 0; step < 50; step++) {
    const radius = car.freeRadius + growth;
    const rest = linear * growth + cubic * growth ** 3 - (car.bandMass * speed * speed) / radius;
    const slope = linear + 3 * cubic * growth ** 2 + (car.bandMass * speed * speed) / radius ** 2;
    growth -= rest / slope;
  }
  return growth;
}

/** Rolling radius without slip at a speed, m. */
export function inventedRollingRadius(car: InventedCar, speed: number): number {
  const load = 0.5 * (car.mass * GRAVITY * car.rearShare + 0.5 * AIR * speed * speed * car.downforceArea);
  // A tyre under centrifugal tension is stiffer.
  const drop = load / (car.verticalStiffness * (1 + (speed / 150) ** 2));
  return car.freeRadius + inventedGrowth(car, speed) - car.rollingShare * drop;
}

/** One instant of a run. */
export interface Instant {
  time: number;
  distance: number;
  speed: number;
  /** Of the driven tread over the road; negative under the brakes. */
  slip: number;
  acceleration: number;
  throttle: number;
}

/** How one run goes: where wheelspin sets in, if at all, and how long it rolls before the brakes. */
export interface RunCourse {
  wheelspinAt?: number;
  brakesBelow: number;
  powerFactor: number;
}

const STEP = 0.002;
const GEAR_SPEEDS = [45, 68, 88];
const SHIFT = 0.08;

/** Drives the run by small steps: grip, then power against air, gear changes, lift, parachute, brakes. */
export function inventedRun(car: InventedCar, course: RunCourse): Instant[] {
  const out: Instant[] = [];
  let speed = 0.5;
  let distance = 0;
  let lifted = Number.POSITIVE_INFINITY;
  let shiftUntil = 0;
  let gear = 0;
  for (let time = 0; time < 30; time += STEP) {
    const air = 0.5 * AIR * speed * speed;
    const most = car.grip * (car.mass * GRAVITY * car.rearShare * 1.35 + air * car.downforceArea);
    if (distance > car.track && lifted === Number.POSITIVE_INFINITY) lifted = time;
    const after = time - lifted;
    if (gear < GEAR_SPEEDS.length && speed > GEAR_SPEEDS[gear]!) {
      gear++;
      shiftUntil = time + SHIFT;
    }
    const pulling = after < 0 && time > shiftUntil;
    const spinning =
      course.wheelspinAt !== undefined && distance > course.wheelspinAt && distance < course.wheelspinAt + 35;
    const thrust = pulling ? Math.min(most, (course.powerFactor * car.power) / Math.max(speed, 5)) : 0;
    const braking = after > 0 && speed < course.brakesBelow;
    const parachute = after > 0.45 ? Math.min(1, (after - 0.45) / 0.3) * air * car.parachuteArea : 0;
    const brakes = braking ? 5.5 * car.mass : 0;
    const drag = air * car.dragArea + 0.02 * car.mass * GRAVITY;
    const acceleration = (thrust * (spinning ? 0.7 : 1) - drag - parachute - brakes) / car.mass;
    const share = thrust / most;
    const slip = braking ? -0.03 : spinning ? 0.3 : 0.085 * share + 0.05 * share ** 6 - 0.0015;
    out.push({ time, distance, speed, slip, acceleration, throttle: after < 0 ? 1 : 0 });
    if (after > 0 && speed < 20) break;
    speed = Math.max(0.5, speed + acceleration * STEP);
    distance += speed * STEP;
  }
  return out;
}
