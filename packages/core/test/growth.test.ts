import fc from 'fast-check';
import { expect, test } from 'vitest';
import { radialGrowths, radialSets } from '../../../test/outside/passenger-radial/growth.ts';
import {
  bandMassPerLength,
  biasGrowth,
  biasGrowthSpeed,
  radialGrowth,
  radialGrowthFraction,
} from '../src/tyre/growth.ts';
import { inflatedGrowth } from '../src/tyre/inflated.ts';
import { between } from './draws.ts';

test('the radial law is the Magic Formula’s radius under speed', () => {
  expect(radialSets.length).toBe(2);
  expect(radialGrowths.length).toBe(6);
  let worst = 0;
  for (const [name, radius, referenceSpeed, atRest, perSpeed] of radialSets) {
    for (const [set, speed, grown, share] of radialGrowths) {
      if (set !== name) continue;
      const rest = radius * atRest;
      // q_V1 belongs to V₀ and to R₀, our q to 50 m/s and to the radius at rest.
      const fraction = (perSpeed / atRest) * (50 / referenceSpeed) ** 2;
      const growth = radialGrowth(speed, rest, fraction);
      worst = Math.max(worst, Math.abs((rest + growth) / grown - 1));
      if (share !== undefined) worst = Math.max(worst, Math.abs(growth / rest - share));
    }
  }
  // The tables have 12 digits.
  expect(worst).toBeLessThan(3e-12);
});

// Derived by hand: A = 0.022 m, v_c = 40 m/s, A ln(1 + (v/v_c)²). Half of the last digit.
const biasRows = [
  [20, 4.9092],
  [40, 15.2492],
  [80, 35.4076],
  [116, 49.319],
] as const;

// Derived by hand: q = 0.007, R₀ = 0.3795 m, q R₀ (v/50)².
const radialRows = [
  [50, 2.6565],
  [90, 8.6071],
] as const;

test('both laws give the growths worked by hand', () => {
  expect(biasRows.length + radialRows.length).toBe(6);
  for (const [speed, growth] of biasRows) expect(biasGrowth(speed, 0.022, 40) * 1e3).toBeCloseTo(growth, 4);
  for (const [speed, growth] of radialRows) {
    expect(radialGrowth(speed, 0.3795, 0.007) * 1e3).toBeCloseTo(growth, 4);
  }
});

test('the speed at which a slick’s growth flattens is the one worked by hand', () => {
  // Derived: 0.77 √(41,400 · 0.432 · 0.438/3.75) = 35.1928 m/s; with a factor of 0.88 it would be 40.2204.
  const speed = biasGrowthSpeed(30e3, 11.4e3, 0.432, 0.438, 3.75);
  expect(speed).toBeCloseTo(35.1928, 4);
  expect((speed * 0.88) / 0.77).toBeCloseTo(40.2204, 4);
  // Derived: 0.57 · 21.319 kg over 2π · 0.438 m.
  expect(bandMassPerLength(21.319, 0.438)).toBeCloseTo((0.57 * 21.319) / (2 * Math.PI * 0.438), 12);
});

test('at low speed a slick grows as a linear spring does, A(v/v_c)²', () => {
  expect(biasGrowth(0.4, 0.022, 40) / (0.022 * 1e-4)).toBeCloseTo(1, 4);
});

test('q_ref holds at 32 psi and falls by the pressure that carries', () => {
  // Derived: 32 psi = 220,632.2333813876 Pa; with p₀ 300 kPa and 120,632.23 Pa the sum is 420,632.23.
  expect(radialGrowthFraction(0.007, 220632.2333813876, 3e5)).toBeCloseTo(0.007, 15);
  expect(radialGrowthFraction(0.007, 120632.2333813876, 3e5)).toBeCloseTo(
    (0.007 * 520632.2333813876) / 420632.2333813876,
    15,
  );
});

test('growth is never negative, never falls with speed or size of its law, and falls with pressure', () => {
  const draw = fc.record({
    bias: fc.boolean(),
    speed: between(0, 160),
    more: between(0, 20),
    pressure: between(3e4, 2e5),
    radius: between(0.3, 0.46),
  });
  fc.assert(
    fc.property(draw, ({ bias, speed, more, pressure, radius }) => {
      const at = (v: number, p: number, factor = 1): number =>
        bias
          ? inflatedGrowth(
              'bias',
              v,
              0.036 * radius,
              radius,
              biasGrowthSpeed(p, 14e3, 0.4, radius, 4),
              factor,
            )
          : inflatedGrowth('radial', v, 1, radius, radialGrowthFraction(0.007, p, 3e5), factor);
      const here = at(speed, pressure);
      expect(here).toBeGreaterThanOrEqual(0);
      expect(at(speed + more, pressure)).toBeGreaterThanOrEqual(here);
      expect(at(speed, pressure + 1e3 * more)).toBeLessThanOrEqual(here);
      expect(at(speed, pressure, 1.25)).toBeCloseTo(1.25 * here, 12);
    }),
  );
});
