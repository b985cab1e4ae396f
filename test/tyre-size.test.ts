import { freeRadius, freeRadiusFromRollout, nominalSize, rollout } from '@tubgap/core';
import { expect, test } from 'vitest';
import { metricSizes, rollouts } from './outside/tyre-size/sizes.ts';

const INCH = 0.0254;
const off = (found: number, expected: number): number => Math.abs(found / expected - 1);

test('a metric marking gives section height, overall diameter and rollout', () => {
  expect(metricSizes.length).toBe(6);
  for (const [marking, width, aspect, rim, height, diameter, length] of metricSizes) {
    const size = nominalSize(width / 1000, aspect / 100, rim * INCH);
    expect(off(size.sectionHeight * 1000, height), marking).toBeLessThan(1e-12);
    expect(off(size.overallDiameter * 1000, diameter), marking).toBeLessThan(1e-12);
    expect(off(rollout(size.overallDiameter / 2) * 1000, length), marking).toBeLessThan(1e-10);
  }
});

test('a rollout is π times the free diameter, turns a mile follow, and the way back', () => {
  expect(rollouts.length).toBe(4);
  for (const [diameter, length, turns] of rollouts) {
    expect(off(rollout(0.5 * diameter * INCH) / INCH, length)).toBeLessThan(1e-10);
    expect(off(1609.344 / rollout(0.5 * diameter * INCH), turns)).toBeLessThan(1e-10);
    expect(off(2 * freeRadiusFromRollout(length * INCH), diameter * INCH)).toBeLessThan(1e-10);
  }
});

test('the free radius moves with the pressure from where it was taped', () => {
  // By hand: 17.25 in at 6.5 psi, 0.014 in/psi; at 8 psi 17.271 in, at 5 psi 17.229 in.
  const psi = 6894.757293168361;
  const slope = (0.014 * INCH) / psi;
  expect(freeRadius(17.25 * INCH, slope, 8 * psi, 6.5 * psi) / INCH).toBeCloseTo(17.271, 12);
  expect(freeRadius(17.25 * INCH, slope, 5 * psi, 6.5 * psi) / INCH).toBeCloseTo(17.229, 12);
});

test('a marking read in the wrong unit is refused', () => {
  expect(() => nominalSize(315, 0.35, 0.4318)).toThrow('section width is 315 m; allowed is 0.1 to 0.6 m');
  expect(() => nominalSize(0.315, 35, 0.4318)).toThrow('aspect ratio is 35; allowed is 0.2 to 1');
  expect(() => nominalSize(0.315, 0.35, 17)).toThrow(RangeError);
});
