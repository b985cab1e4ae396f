import { describe, expect, it } from 'vitest';
import { flatLengths } from '../src/sheets/notch-flats.ts';

const degrees = (angle: number): number => (angle * Math.PI) / 180;
const [radius, depth] = [0.54, 0.03];
const half = Math.sqrt(radius ** 2 - (radius - depth) ** 2);
const flats = (...angles: number[]): number[] =>
  flatLengths({
    diameter: 2 * radius,
    radius,
    notches: angles.map((angle) => ({ angle: degrees(angle), depth })),
  });

/** Plane geometry, derived: two equal flats meet half-way between them, at the apothem times the tangent of half the turn. */
describe('the flats that close notches', () => {
  it('are whole chords where they stand apart', () => {
    for (const length of flats(-30, 30)) expect(length).toBeCloseTo(2 * half, 12);
  });

  it('end where the next one begins, on either side', () => {
    const met = (radius - depth) * Math.tan(degrees(10));
    expect(met).toBeLessThan(half);
    const [first, middle, last] = flats(10, 30, 50);
    expect(first).toBeCloseTo(half + met, 12);
    expect(middle).toBeCloseTo(2 * met, 12);
    expect(last).toBeCloseTo(half + met, 12);
  });

  it('are nothing where a deeper one covers them', () => {
    const notches = [
      { angle: 0, depth },
      { angle: degrees(5), depth: 3 * depth },
    ];
    expect(flatLengths({ diameter: 2 * radius, radius, notches })[0]).toBe(0);
  });
});
