import type { LengthRange } from '@tubgap/casefile';
import { FOOT } from '@tubgap/units';

/** A figure with the limits of its error, SI. */
export type Estimate = { value: number } & Pick<LengthRange, 'low' | 'high'>;

/** From the stage beam to the first timer, m. */
const SIXTY_FEET = 60 * FOOT;
/** How far the car has gone when its front tyre uncovers the stage beam, m: 11½ to 12 in with a 22 in wheel (a timing installation guide). */
export const ROLL_OUT = FOOT;
/** Length over which the speed of a slip is taken, m, before the line. */
const TRAP = 66 * FOOT;
/** Standard air, kg/m³. */
const STANDARD_DENSITY = 1.225;

/**
 * Roll-out of a front tyre, m: 2√(h(D − h)), the chord that its circle cuts at the height of the beam.
 * Source: derived; a timing installation guide gives 11½ to 12 in for a 22 in wheel and a beam about 1 9/16 to 1 5/8 in high.
 * @param diameter  D, m, above `height`
 * @param height  of the beam above the track, h, m, 0 or more
 */
export const rollOut = (diameter: number, height: number): number =>
  2 * Math.sqrt(height * (diameter - height));

/** The constant acceleration from rest, m/s², that makes a distance in a time whose clock starts after the roll-out. */
const constantFrom = (time: number, distance: number, rolled: number): number =>
  ((Math.sqrt(2 * (distance + rolled)) - Math.sqrt(2 * rolled)) / time) ** 2;

/** What a 60-foot time says of the launch, SI. */
export interface Launch {
  /** Mean from rest to the 60-foot beam, m/s²; the peak lies above it. */
  acceleration: Estimate;
  /** At the beam, m/s. */
  speed: number;
  /** Before the clock starts, s. */
  rollOutTime: number;
}

/**
 * Mean launch acceleration from a 60-foot time: a = (√(2(d + r)) − √(2r))²/t², for the clock starts only after the
 * roll-out r, when the car already moves; without it a comes out 29 % too high. Constant acceleration from rest.
 * Limits: 0.01 s in the time, 1 in of roll-out (1.1 %), and a timed distance that may be 1.4 ft short where it counts from
 * the guard beam (2.6 %, downwards). Deep staging takes the roll-out away. Source: derived.
 * @param time  s, 0.6 to 5; outside or not finite: RangeError
 * @param rolled  roll-out, m, 0 or more
 */
export function launchOf(time: number, rolled: number = ROLL_OUT): Launch {
  if (!(time >= 0.6 && time <= 5)) throw new RangeError(`60-foot time ${time} s; allowed are 0.6 to 5 s`);
  const value = constantFrom(time, SIXTY_FEET, rolled);
  const clock = 0.02 / time;
  const acceleration = { value, low: value * (1 - clock - 0.011 - 0.026), high: value * (1 + clock + 0.011) };
  return {
    acceleration,
    speed: Math.sqrt(2 * value * (SIXTY_FEET + rolled)),
    rollOutTime: Math.sqrt((2 * rolled) / value),
  };
}

/**
 * Speed at the finish line from that of a slip, which is the mean over the last 66 ft: at constant power
 * v ∝ x^⅓, so mean over end speed is s/(1.5 (1 − (1 − s)^⅔)), s = 66 ft over the distance: 0.983, 0.989 and 0.992 at an
 * eighth mile, 1,000 ft and a quarter. The car passes the line 1.7, 1.1, 0.9 % faster; growth takes twice that.
 * Limits: no acceleration left, and constant acceleration from rest (1.3 to 2.6 %). Drag lies between. Source: derived; the
 * 66 ft are the timing systems' (trade pages).
 * @param slipSpeed  m/s, more than 0
 * @param distance  m, more than 66 ft; else RangeError
 */
export function lineSpeed(slipSpeed: number, distance: number): Estimate {
  const share = TRAP / distance;
  if (!(share > 0 && share < 1)) throw new RangeError(`distance ${distance} m; it must be more than 66 ft`);
  const atConstantPower = share / (1.5 * (1 - (1 - share) ** (2 / 3)));
  const atConstantAcceleration = (1 + Math.sqrt(1 - share)) / 2;
  return { value: slipSpeed / atConstantPower, low: slipSpeed, high: slipSpeed / atConstantAcceleration };
}

/** Elapsed time times speed over the distance: 1.5 at constant power, 2 at constant acceleration. */
const SLIP_PRODUCT = { least: 1300 / 900, most: 2 } as const;

/** What an elapsed time and a speed say of the whole run. */
export interface WholeRun {
  /** Elapsed time × speed in terms of the quarter mile, s·mph: 1,350 at constant power, 1,800 at constant acceleration. */
  product: number;
  /** Within 1,300 to 1,800 s·mph; outside it is mistyped, or of a run that was lifted (judgement). */
  plausible: boolean;
  /** m/s², mean over the time, v/t. */
  overTime: number;
  /** m/s², mean over the distance, v²/2x. */
  overDistance: number;
  /** m/s², the constant one that makes the distance in the time, 2x/t². */
  constant: number;
}

/**
 * Plausibility and mean acceleration of a run from its slip. The three means agree only at constant acceleration. The
 * clock starts after the roll-out, so all are a little high. The product scales with the distance.
 * Source: derived; a university's teaching example gives 33, 40 and 27 m/s² for 4.5 s, 148 m/s, 402 m.
 * @param elapsed  s, more than 0
 * @param speed  m/s, more than 0
 * @param distance  m, more than 0
 */
export function wholeRun(elapsed: number, speed: number, distance: number): WholeRun {
  const product = (elapsed * speed) / distance;
  return {
    product: product * 900,
    plausible: product >= SLIP_PRODUCT.least && product <= SLIP_PRODUCT.most,
    overTime: speed / elapsed,
    overDistance: speed ** 2 / (2 * distance),
    constant: (2 * distance) / elapsed ** 2,
  };
}

/** Share by which a speed of a slip may be off. */
const SPEED_ERROR = 0.015;
/** Beyond so many times the estimate its upper limit says nothing. */
const MOST_SPREAD = 2;

/**
 * Acceleration while grip limits, m/s², of a run that goes on at constant power from where it no longer does, without drag:
 * with p = P/m, x = v₁²/2a + (v³ − v₁³)/3p and t = v₁/a + (v² − v₁²)/2p, v₁ = p/a, so p solves
 * 3px − ½(2tp − v²)^(3/2) = v³ and a = p/√(2tp − v²). Source: derived.
 * @param time  from rest, s
 * @param speed  at the end, m/s
 * @param distance  from rest, m
 * @returns undefined where speed × time over distance is not between 1.5, constant power, and 2, constant acceleration
 */
function gripLimited(time: number, speed: number, distance: number): number | undefined {
  const product = (speed * time) / distance;
  if (!(product > 1.5 && product < 2)) return undefined;
  const excess = (p: number): number =>
    3 * p * distance - 0.5 * Math.max(0, 2 * time * p - speed ** 2) ** 1.5 - speed ** 3;
  let [low, high] = [speed ** 2 / (2 * time), speed ** 2 / time];
  for (let k = 0; k < 60; k++) {
    const middle = 0.5 * (low + high);
    if (excess(middle) < 0) low = middle;
    else high = middle;
  }
  const p = 0.5 * (low + high);
  return p / Math.sqrt(2 * time * p - speed ** 2);
}

/**
 * Launch acceleration from elapsed time and speed at the line, m/s²: that of `gripLimited`, the roll-out's time and way added.
 * Without drag: with it a car shows less speed for its time, which is taken for more launch, the safe side. Limits: 1.5 % of
 * the speed either way, and no less than constant acceleration all the way. Source: derived.
 * @param elapsed  s, more than 0
 * @param speed  at the line, m/s, more than 0
 * @param distance  m, more than 0
 * @param rolled  roll-out, m, 0 or more
 * @returns undefined where time and speed do not tell it: not of one full run, or so near to constant power that the upper
 * limit is more than twice the estimate
 */
export function launchOfRun(
  elapsed: number,
  speed: number,
  distance: number,
  rolled: number = ROLL_OUT,
): Estimate | undefined {
  const at = (v: number): number | undefined => {
    let found = gripLimited(elapsed, v, distance);
    for (let k = 0; k < 8 && found !== undefined && rolled > 0; k++)
      found = gripLimited(elapsed + Math.sqrt((2 * rolled) / found), v, distance + rolled);
    return found;
  };
  const [value, low, high] = [speed, speed * (1 + SPEED_ERROR), speed * (1 - SPEED_ERROR)].map(at);
  if (value === undefined || high === undefined || high > MOST_SPREAD * value) return undefined;
  return { value, low: low ?? constantFrom(elapsed, distance, rolled), high };
}

/**
 * Pull of a parachute over the car's mass, m/s²: ρ (C_D S) v²/2m, steady, without the snatch of the opening. Source: derived.
 * @param dragArea  C_D S of all parachutes, m², 0 or more
 * @param speed  m/s
 * @param mass  kg, more than 0
 * @param density  kg/m³; left out: standard air
 */
export const chuteDeceleration = (
  dragArea: number,
  speed: number,
  mass: number,
  density: number = STANDARD_DENSITY,
): number => (density * dragArea * speed ** 2) / (2 * mass);
