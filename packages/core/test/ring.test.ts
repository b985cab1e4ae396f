import { expect, test } from 'vitest';
import {
  beam,
  beamDeflections,
  rigidMovements,
  ringDeflections,
  rings,
} from '../../../test/outside/foundation/foundation.ts';
import { collapseLoads, hoopStresses, pinched, ringFrequencies } from '../../../test/outside/ring/ring.ts';
import { type Band, bandSeries, harmonicStiffness } from '../src/tyre/band.ts';
import { criticalSpeed, hoopShareFromGrowth } from '../src/tyre/critical-speed.ts';
import { hoopStress } from '../src/tyre/growth.ts';

const free = (radius: number, bending: number): Band => ({
  radius,
  radialStiffness: 0,
  tangentialStiffness: 0,
  airTension: 0,
  bending,
});

test('hoop stress is ρV² whatever the radius', () => {
  expect(hoopStresses.length).toBe(4);
  for (const [density, speed, stress] of hoopStresses) {
    expect(Math.abs(hoopStress(density, speed) / stress - 1)).toBeLessThan(1e-13);
  }
});

test('without springs a harmonic loses its stiffness at Lévy’s collapse load', () => {
  expect(collapseLoads.length).toBe(3);
  const bending = (2e11 * 0.01 ** 3) / 12;
  for (const [n, load] of collapseLoads) {
    // A load q per length of rim from outside is an air tension of −qR, so τ = −q/R.
    const at = (share: number): number =>
      harmonicStiffness({ ...free(1, bending), airTension: -share * load }, n);
    expect(Math.abs(at(1))).toBeLessThan(1e-9 * at(0));
    expect(at(0.999)).toBeGreaterThan(0);
  }
});

test('with bending alone the harmonics give the frequencies of a free ring', () => {
  expect(ringFrequencies.length).toBe(6);
  for (const [radius, bending, massPerLength, n, frequency] of ringFrequencies) {
    // A ring that does not stretch moves w cos nφ and −(w/n) sin nφ: modal mass πRm(1 + 1/n²).
    const mass = Math.PI * radius * massPerLength * (1 + 1 / (n * n));
    const found = Math.sqrt(harmonicStiffness(free(radius, bending), n) / mass) / (2 * Math.PI);
    expect(Math.abs(found / frequency - 1)).toBeLessThan(1e-10);
  }
});

test('with bending alone the harmonics give the pinched ring', () => {
  // Two opposed loads move the even harmonics only. Terms fall as n⁻⁴: 4,000 pairs leave 4e-13.
  let loaded = 0;
  let other = 0;
  for (let n = 8000; n >= 2; n -= 2) {
    const compliance = 4 / harmonicStiffness(free(1, 1), n);
    loaded += compliance;
    other -= n % 4 === 0 ? compliance : -compliance;
  }
  expect(Math.abs(loaded - pinched.shortening)).toBeLessThan(1e-12);
  expect(Math.abs(other - pinched.lengthening)).toBeLessThan(1e-12);
});

test('with bending the series is the ring on springs in closed form', () => {
  expect(ringDeflections.length).toBe(9);
  for (const [name, degrees, deflection] of ringDeflections) {
    const { bending, radius, foundation, load } = rings[name];
    const band = { ...free(radius, bending), radialStiffness: foundation };
    const angle = Math.PI + (degrees * Math.PI) / 180;
    // A point load: a patch without length. Outward is away from the load; N terms leave F R³/(3πEI N³).
    const found = -bandSeries(band, angle, load, 0, 0, 20_000);
    expect(Math.abs(found - deflection), `${name} ${degrees}°`).toBeLessThan(3e-13);
  }
  expect(rigidMovements.length).toBe(2);
  for (const [name, movement] of rigidMovements) {
    const { bending, radius, foundation, load } = rings[name];
    const found = load / harmonicStiffness({ ...free(radius, bending), radialStiffness: foundation }, 1);
    expect(Math.abs(found / movement - 1)).toBeLessThan(1e-11);
  }
});

test('a very large ring is the straight beam on its foundation', () => {
  expect(beamDeflections.length).toBe(4);
  const radius = 400;
  const band = { ...free(radius, beam.bending), radialStiffness: beam.foundation };
  // What the missing n = 0 term takes off everywhere: F/(2πkR). The ring's curvature adds of the order (λR)⁻² ≈ 5e-6.
  const breathing = beam.load / (2 * Math.PI * beam.foundation * radius);
  for (const [distance, deflection] of beamDeflections) {
    const found = -bandSeries(band, Math.PI + distance / radius, beam.load, 0, 0, 60_000) + breathing;
    expect(Math.abs(found - deflection), `${distance} m`).toBeLessThan(1e-5 * beamDeflections[0][1]);
  }
});

// Worked by hand (derived): R 0.475 m, μ 4.35 kg/m, τ 33 kN/m², k_w 0.79, k_v 0.55 MN/m²; EI N·m², χ, m/s.
const band = {
  radius: 0.475,
  massPerLength: 4.35,
  airTension: 33e3,
  radialStiffness: 7.9e5,
  tangentialStiffness: 5.5e5,
};
const criticalSpeeds = [
  [10, 0.76, 112.0084],
  [4, 0.6, 79.5596],
  [20, 0.9, 188.5617],
] as const;

test('standing waves begin at the worked speeds', () => {
  expect(criticalSpeeds.length).toBe(3);
  for (const [bending, share, speed] of criticalSpeeds) {
    expect(criticalSpeed(band, bending, share)).toBeCloseTo(speed, 4);
  }
  expect(hoopShareFromGrowth(7.9e5, 0.0366, 0.475, 4.35, 116.23)).toBeCloseTo(0.76629, 5);
});

test('a membrane without springs and bending runs into waves at √(τR²/μ) without hoop tension', () => {
  const bare = { ...band, radialStiffness: 1e-9, tangentialStiffness: 1e-9 };
  expect(criticalSpeed(bare, 0, 0)).toBeCloseTo(Math.sqrt((33e3 * 0.475 ** 2) / 4.35), 6);
});

test('a wave is slower than none: the critical speed is below every single harmonic’s', () => {
  for (const n of [2, 3, 5, 8, 20]) {
    const m = n * n - 1;
    const single =
      (10 / 0.475 ** 4) * m +
      band.airTension +
      (band.radialStiffness + band.tangentialStiffness / (n * n)) / m;
    const speed = Math.sqrt(((0.475 ** 2 / 4.35) * single) / (1 - 0.76));
    expect(criticalSpeed(band, 10, 0.76)).toBeLessThanOrEqual(speed + 1e-9);
  }
  expect(() => criticalSpeed(band, 10, 1)).toThrow(/allowed is 0 to below 1/);
});
