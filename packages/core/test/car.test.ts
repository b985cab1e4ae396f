import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  dynamicPressures,
  integratedRuns,
  loadTransfers,
  straightLine,
} from '../../../test/outside/straight-line/straight-line.ts';
import {
  airForce,
  frontLiftAcceleration,
  loadTransfer,
  overshootForce,
  springForce,
  tyreLoad,
} from '../src/car/force.ts';
import { antiSquat, axlePathSlope } from '../src/car/linkage.ts';
import {
  gripLimitedAcceleration,
  powerLimitedAcceleration,
  SHIFT_SPEED,
  SPECIFIC_POWER,
  solveTrackRun,
  speedAt,
  TRACK_RUN_LENGTH,
} from '../src/car/track-run.ts';
import { bodyDrop } from '../src/car/travel.ts';
import { between } from './draws.ts';

const G = 9.80665;
const off = (found: number, expected: number): number => Math.abs(found / expected - 1);

// Worked by hand (derived): 1,202 kg, half on the rear, wheelbase 2.794, centre of gravity 0.508, drag at 0.559 m,
// air 1.15 kg/m³, 111.76 m/s, drag area 0.55, rear downforce area 1.257 m², anti-squat 0.85, 0.9 g, no rolling.
const weight = 1202 * G;
const drag = airForce(1.15, 111.76, 0.55);
const downforce = airForce(1.15, 111.76, 1.257);
const at = (thrust: number, chute: number): { load: number; spring: number } => {
  const moved = loadTransfer(thrust, drag, chute, 0.508, 0.559, 0.7, 2.794, weight / 2);
  return {
    load: tyreLoad(weight / 2, downforce, moved),
    spring: springForce(downforce, moved, thrust, 0.85, 0.508, 2.794),
  };
};

test('forces at the finish and under the parachute are those worked by hand', () => {
  expect(drag).toBeCloseTo(3950.057, 3);
  expect(downforce).toBeCloseTo(9027.675, 3);
  const thrust = 0.9 * weight + drag;
  expect(thrust).toBeCloseTo(14558.891, 3);
  expect(at(thrust, 0).load).toBeCloseTo(8820.322, 3);
  expect(at(thrust, 0).spring).toBeCloseTo(4748.419, 3);
  expect(at(0, 2 * weight).load).toBeCloseTo(8306.815, 3);
  expect(at(0, 2 * weight).spring).toBeCloseTo(5359.916, 3);
});

test('load transfer and the axle at launch agree with the textbook’s moment balance', () => {
  expect(loadTransfers.length).toBe(2);
  for (const [mass, acceleration, height, wheelbase, moved] of loadTransfers) {
    const found = loadTransfer(mass * acceleration, 0, 0, height, 0, 0, wheelbase, 1e9);
    expect(off(found, moved)).toBeLessThan(1e-11);
  }
  const moved = loadTransfer(1100 * 2 * G, 0, 0, 0.45, 0, 0, 2.65, (1100 * G) / 2);
  expect(off(2 * tyreLoad((1100 * G) / 2, 0, moved), straightLine.launchRearAxle)).toBeLessThan(1e-11);
});

test('the front wheels lift where the transfer takes all of their weight, and no more is moved beyond', () => {
  const { rearShare, wheelbase, cgHeight, accelerationOverG } = straightLine.frontLift;
  const lift = frontLiftAcceleration(rearShare, wheelbase, cgHeight);
  expect(off(lift / G, accelerationOverG)).toBeLessThan(1e-11);
  const front = (1 - rearShare) * 1000 * G;
  const moved = (share: number): number =>
    loadTransfer(share * lift * 1000, 0, 0, cgHeight, 0, 0, wheelbase, front);
  expect(off(moved(1), front)).toBeLessThan(1e-12);
  expect(moved(0.99)).toBeLessThan(front);
  expect(moved(1.5)).toBe(front);
});

test('dynamic pressure is ½ρv², and a tyre never pulls on the track', () => {
  expect(dynamicPressures.length).toBe(2);
  for (const [density, speed, pressure] of dynamicPressures) {
    expect(off(airForce(density, speed, 1), pressure)).toBeLessThan(1e-12);
  }
  expect(tyreLoad(5000, 0, -6000)).toBe(0);
});

test('a parachute attached below the centre of gravity lifts the rear, above it presses it down', () => {
  const rear = (height: number): number => loadTransfer(0, 0, 2e4, 0.5, 0.5, height, 2.8, 1e9);
  // By hand: 20 kN · (0.3 − 0.5) m/2.8 m = −1,428.571 N; at 0.75 m +1,785.714 N.
  expect(rear(0.3)).toBeCloseTo(-1428.571, 3);
  expect(rear(0.75)).toBeCloseTo(1785.714, 3);
  expect(rear(0.5)).toBe(0);
});

test('an event overshoots in force', () => {
  // By hand: from 4,748.419 to 3,000 N at 1.3 the force passes 3,000 by 0.3 · 1,748.419 downward.
  expect(overshootForce(4748.419, 3000, 1.3)).toBeCloseTo(2475.4743, 4);
  expect(overshootForce(4748.419, 3000, 1)).toBe(3000);
});

// Worked by hand (derived): 33 kN/m, 56 mm of travel, stop 440 kN/m; N, mm. The last two rows: droop of 70 mm.
const drops = [
  [1000, 30.303],
  [2000, 56.3214],
  [6000, 64.778],
  [-2000, -60.6061],
  [-4000, -70],
] as const;

test('the body drops on the spring, then on the stop, and no further down than full droop', () => {
  expect(drops.length).toBe(5);
  for (const [force, drop] of drops) {
    expect(bodyDrop(force, 33e3, 0.056, 4.4e5, 0.07) * 1e3).toBeCloseTo(drop, 4);
  }
});

test('the drop rises with the force without a jump', () => {
  const draw = fc.record({
    rate: between(1e4, 1e5),
    travel: between(0, 0.1),
    stop: between(0, 1e6),
    droop: between(0, 0.1),
  });
  fc.assert(
    fc.property(draw, between(-1e4, 2e4), between(0, 500), ({ rate, travel, stop, droop }, force, more) => {
      const rise =
        bodyDrop(force + more, rate, travel, stop, droop) - bodyDrop(force, rate, travel, stop, droop);
      expect(rise).toBeGreaterThanOrEqual(0);
      expect(rise).toBeLessThanOrEqual(more / rate + 1e-12);
    }),
  );
});

// Worked by hand (derived): instant centre d, h_I m; anti-squat, slope at an axle height of 0.42 m; wheelbase and
// centre of gravity as above.
const centres = [
  [1.27, 0.25, 1.08268, 0.133858],
  [0.8, 0.2, 1.375, 0.275],
] as const;

test('an instant centre gives the anti-squat and the axle path worked by hand', () => {
  expect(centres.length).toBe(2);
  for (const [ahead, height, share, slope] of centres) {
    expect(antiSquat({ ahead, height }, 2.794, 0.508)).toBeCloseTo(share, 5);
    expect(axlePathSlope({ ahead, height }, 0.42)).toBeCloseTo(slope, 6);
  }
});

test('the axle path is the slope of the circle on which the axle swings', () => {
  // Derived: about a centre d ahead and h_I up the axle moves on a circle; 0.01 mm of bump tells its slope.
  const { ahead, height } = { ahead: 1.27, height: 0.25 };
  const radius = Math.hypot(ahead, 0.42 - height);
  const forward = ahead - Math.sqrt(radius ** 2 - (0.42 + 1e-5 - height) ** 2);
  expect(forward / 1e-5).toBeCloseTo(axlePathSlope({ ahead, height }, 0.42), 4);
});

const solved = (acceleration: number, trap: number, distance: number, dragPerMass: number): Float64Array => {
  const run = new Float64Array(TRACK_RUN_LENGTH);
  solveTrackRun(run, acceleration, trap, distance, dragPerMass);
  return run;
};

test('a run fitted to the trap speed is the one that a stepwise integration gives', () => {
  expect(integratedRuns.length).toBe(3);
  for (const [acceleration, dragPerMass, shift, middle, trap] of integratedRuns) {
    const run = solved(acceleration, trap, straightLine.quarterMile, dragPerMass);
    expect(off(run[SHIFT_SPEED]!, shift)).toBeLessThan(1e-10);
    expect(off(speedAt(run, dragPerMass, straightLine.quarterMile / 2), middle)).toBeLessThan(1e-11);
  }
});

test('without losses the run is the constant power, and the constant acceleration, of the books', () => {
  const { quarterMile, constantPower, constantAcceleration } = straightLine;
  // Nearly no grip limit, nearly no drag: v³ = 3 q s.
  const power = solved(1e4, constantPower.speed, quarterMile, 1e-12);
  expect(off(power[SPECIFIC_POWER]!, constantPower.specificPower)).toBeLessThan(1e-8);
  // As much acceleration as the trap speed takes, and less: the same run.
  for (const launch of [constantAcceleration.acceleration, 12]) {
    const run = solved(launch, constantAcceleration.speed, quarterMile, 2e-4);
    expect(off(speedAt(run, 2e-4, quarterMile), constantAcceleration.speed)).toBeLessThan(1e-6);
    expect(off(speedAt(run, 2e-4, quarterMile / 4), constantAcceleration.speed / 2)).toBeLessThan(1e-5);
    expect(off(gripLimitedAcceleration(run), constantAcceleration.acceleration)).toBeLessThan(3e-3);
  }
});

test('every solved run passes the trap at the trap speed, never slows, and holds its net acceleration', () => {
  const draw = fc.record({
    acceleration: between(2, 45),
    trap: between(20, 150),
    distance: fc.constantFrom(201.168, 304.8, 402.336),
    dragPerMass: between(Math.log(1e-6), Math.log(2e-3)).map(Math.exp),
  });
  fc.assert(
    fc.property(draw, between(0.01, 0.97), ({ acceleration, trap, distance, dragPerMass }, share) => {
      const run = solved(acceleration, trap, distance, dragPerMass);
      expect(off(speedAt(run, dragPerMass, distance), trap)).toBeLessThan(1e-6);
      const [here, there] = [share, share + 0.02].map((part) => speedAt(run, dragPerMass, part * distance));
      expect(there!).toBeGreaterThan(here!);
      expect(gripLimitedAcceleration(run)).toBeGreaterThan(
        0.995 * Math.min(acceleration, trap ** 2 / (2 * distance)),
      );
      // v dv/dx over a short stretch is the net acceleration (derived).
      const x = 0.98 * distance;
      const [low, high] = [x - 0.05, x + 0.05].map((place) => speedAt(run, dragPerMass, place));
      const measured = (high! ** 2 - low! ** 2) / 0.2;
      const middle = speedAt(run, dragPerMass, x);
      if (run[SHIFT_SPEED]! < low!) {
        expect(Math.abs(powerLimitedAcceleration(run, dragPerMass, middle) - measured)).toBeLessThan(1e-3);
      }
    }),
    { numRuns: 500 },
  );
});
