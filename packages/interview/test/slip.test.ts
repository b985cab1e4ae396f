import { FOOT, INCH, MPH, STANDARD_GRAVITY } from '@tubgap/units';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { chuteDeceleration, launchOf, lineSpeed, ROLL_OUT, rollOut, wholeRun } from '../src/index.ts';
import { launchOfRun } from '../src/slip.ts';

const relative = (found: number, expected: number) => Math.abs(found / expected - 1);

// Kinematics by hand: constant acceleration from rest, a = (√(2(d + r)) − √(2r))²/t², d = 60 ft; time s, roll-out ft, g.
const launches = [
  [0.95, 1, 3.194502],
  [1, 1, 2.883038],
  [1.1, 1, 2.382676],
  [1.2, 1, 2.00211],
  [1.5, 1, 1.28135],
  [2.2, 1, 0.595669],
  [0.95, 0, 4.132647],
  [1.1, 0, 3.082408],
  [2.2, 0, 0.7706021],
  [1, 0.5, 3.108095017],
  [1, 11.5 / 12, 2.898626831],
  [1, 13 / 12, 2.853059276],
] as const;

test('a 60-foot time gives the mean launch acceleration', () => {
  expect(launches).toHaveLength(12);
  for (const [time, rolled, expected] of launches) {
    const { value, low, high } = launchOf(time, rolled * FOOT).acceleration;
    expect(relative(value / STANDARD_GRAVITY, expected), `${time} s, ${rolled} ft`).toBeLessThan(3e-7);
    expect(low).toBeLessThan(value);
    expect(high).toBeGreaterThan(value);
  }
});

// By hand: √(2a(d + r)) and √(2r/a) of the row 1.00 s, 1 ft.
test('the launch starts before the clock', () => {
  const { speed, rollOutTime } = launchOf(1, ROLL_OUT);
  expect(speed / MPH).toBeCloseTo(72.53148, 5);
  expect(rollOutTime).toBeCloseTo(0.1468375, 7);
  expect(() => launchOf(0.5)).toThrow(RangeError);
});

// A timing installation guide: 11½ to 12 in with a 22 in wheel and a beam 1 9/16 to 1 5/8 in high. Digits by hand.
test('the roll-out is the chord of the front tyre', () => {
  const rows = [
    [22, 1.625, 11.508],
    [22, 1.5625, 11.302],
    [28, 1.5625, 12.854],
  ] as const;
  for (const [diameter, height, expected] of rows) {
    expect(rollOut(diameter * INCH, height * INCH) / INCH).toBeCloseTo(expected, 3);
  }
});

// Kinematics by hand: v ∝ x^⅓ over the last 66 ft.
const traps = [
  [660, 0.9828457],
  [1000, 0.9887914],
  [1320, 0.9915479],
] as const;

test('the line is passed faster than the slip says', () => {
  for (const [feet, share] of traps) {
    const { value, low, high } = lineSpeed(100, feet * FOOT);
    expect(100 / value, `${feet} ft`).toBeCloseTo(share, 7);
    expect(low).toBe(100);
    // Constant acceleration: the mean of the speeds at both ends of the trap.
    expect(100 / high).toBeCloseTo((1 + Math.sqrt(1 - 66 / feet)) / 2, 12);
  }
});

test('more speed on the slip is never less at the line, and the correction never rises with the distance', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 20, max: 150, noNaN: true }),
      fc.double({ min: 0, max: 20, noNaN: true }),
      fc.double({ min: 100, max: 400, noNaN: true }),
      fc.double({ min: 0, max: 100, noNaN: true }),
      (speed, more, distance, further) => {
        const { value, low, high } = lineSpeed(speed, distance);
        expect(lineSpeed(speed + more, distance).value).toBeGreaterThanOrEqual(value);
        expect(low).toBeLessThan(value);
        expect(value).toBeLessThan(high);
        expect(lineSpeed(speed, distance + further).value).toBeLessThanOrEqual(value * (1 + 1e-12));
      },
    ),
  );
});

// By hand: 1.5 x and 2 x of a quarter mile in s·mph. Then the fits of Huntington and Fox, 6.290 · 224 and 6.269 · 230 (from
// memory, seen in public copies of them): one row each of 2,800 lb, 1,500 hp.
test('elapsed time times speed lies between constant power and constant acceleration', () => {
  const quarter = 1320 * FOOT;
  expect(wholeRun(10, 135 * MPH, quarter)).toMatchObject({
    product: expect.closeTo(1350, 9),
    plausible: true,
  });
  expect(wholeRun(7.744729, 181.925018 * MPH, quarter).product).toBeCloseTo(1408.96, 2);
  expect(wholeRun(7.718872, 186.79801 * MPH, quarter).product).toBeCloseTo(1441.87, 2);
  expect(wholeRun(10, 129 * MPH, quarter).plausible).toBe(false);
  expect(wholeRun(10, 181 * MPH, quarter).plausible).toBe(false);
  // The eighth of a run at constant power: 2^⅔ and 2^⅓ below the quarter.
  expect(wholeRun(10 / 2 ** (2 / 3), (135 * MPH) / 2 ** (1 / 3), quarter / 2).product).toBeCloseTo(1350, 9);
});

// Kinematics by hand, integrated numerically to 1e-6: a, g, then time, s, and speed, mph, at 660, 1000 and 1320 ft of cars with 600 hp
// and 3,400 lb, 1,500 and 2,800, 2,500 and 2,600, 4,000 and 2,500; from rest, without roll-out and drag.
const gripThenPower = [
  [1, [6.6329389, 121.978663], [8.39040444, 141.355693], [9.85821619, 155.701916]],
  [2, [4.65524934, 175.901904], [5.8729602, 204.142788], [6.88896341, 225.009427]],
  [2.5, [4.08596353, 209.37238], [5.10461658, 244.850417], [5.95015647, 270.7915]],
  [3, [3.70178856, 239.680417], [4.58490339, 284.066916], [5.31147939, 315.94392]],
] as const;

test('elapsed time and speed give the acceleration while grip limits', () => {
  let count = 0;
  for (const [launch, ...slips] of gripThenPower) {
    slips.forEach(([time, mph], k) => {
      const found = launchOfRun(time, mph * MPH, [660, 1000, 1320][k]! * FOOT, 0)!;
      // The figures have nine digits; the estimate is some 40 times as sensitive.
      expect(relative(found.value / STANDARD_GRAVITY, launch)).toBeLessThan(1e-6);
      expect(found.low).toBeLessThan(found.value);
      expect(found.high).toBeGreaterThan(found.value);
      count++;
    });
  }
  expect(count).toBe(12);
  // The clock that starts after the roll-out shows less time for the same launch.
  const [time, mph] = gripThenPower[1][1];
  const clock = time - Math.sqrt((2 * ROLL_OUT) / (2 * STANDARD_GRAVITY));
  const found = launchOfRun(clock, mph * MPH, 660 * FOOT - ROLL_OUT)!;
  expect(relative(found.value / STANDARD_GRAVITY, 2)).toBeLessThan(1e-5);
  // At constant power, and with a speed that is mistyped, they tell nothing.
  expect(launchOfRun(10, 135 * MPH, 1320 * FOOT)).toBeUndefined();
  expect(launchOfRun(7.5, 150 * MPH, 1320 * FOOT)).toBeUndefined();
});

// A university physics course's page: 4.5 s, 148 m/s, 402 m give 33, 40 and 27 m/s². More digits by hand.
test('the mean accelerations of a run differ, for none is constant', () => {
  const { overTime, constant, overDistance } = wholeRun(4.5, 148, 402);
  expect([overTime, constant, overDistance].map(Math.round)).toEqual([33, 40, 27]);
  expect(overTime).toBeCloseTo(32.889, 3);
  expect(constant).toBeCloseTo(39.704, 3);
  expect(overDistance).toBeCloseTo(27.244, 3);
});

// By hand, standard air of 1.225 kg/m³: 3 m², 1,200 kg, 200 mph: 14688.58998 N; 6 m², 1,100 kg, 260 mph: 49647.43412 N.
test('a parachute pulls by the square of the speed', () => {
  expect(1200 * chuteDeceleration(3, 200 * MPH, 1200)).toBeCloseTo(14688.58998, 5);
  expect(1100 * chuteDeceleration(6, 260 * MPH, 1100)).toBeCloseTo(49647.43412, 5);
  expect(chuteDeceleration(6, 260 * MPH, 1100) / chuteDeceleration(6, 130 * MPH, 1100)).toBeCloseTo(4, 12);
});
