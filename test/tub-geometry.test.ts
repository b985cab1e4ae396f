import {
  ceilingAbove,
  hardGap,
  hardPointFan,
  legReach,
  panelMass,
  sideRoom,
  smallestGap,
  standingOutline,
  staticGaps,
  type Tub,
  TYRE_INPUTS,
  tubGap,
  tubPanel,
} from '@tubgap/core';
import { expect, test } from 'vitest';
import {
  arcDistances,
  flatLengths,
  halfTub,
  plainGaps,
  segments,
  twoCircles,
} from './outside/geometry/geometry.ts';

const off = (found: number, expected: number): number => Math.abs(found / expected - 1);
const DEGREE = Math.PI / 180;
const arc = (radius: number, extent: number, legLength = 0): Tub => ({
  radius,
  halfExtent: 0.5 * extent * DEGREE,
  legLength,
  centreForward: 0,
});

/** A round tyre: without load the band does not bulge. The other inputs do not matter. */
const roundTyre = (radius: number): Float64Array =>
  Float64Array.from(TYRE_INPUTS, (name) => {
    if (name === 'referenceRadius') return radius;
    return name === 'radiusPerPressure' ? 0 : 1;
  });
const setup = { construction: 'bias', referencePressure: 45e3, radialStiffness: 7e5 } as const;

test('the distance to an arc is the one that a search over its points finds', () => {
  expect(arcDistances.length).toBe(7);
  for (const [ahead, above, half, short] of arcDistances) {
    // Ours has a sign: through the wall it is negative.
    expect(Math.abs(Math.abs(tubGap(arc(10, 180), ahead, above)) - half)).toBeLessThan(1e-12);
    expect(Math.abs(Math.abs(tubGap(arc(10, 120), ahead, above)) - short)).toBeLessThan(1e-12);
  }
  expect(tubGap(arc(10, 180), 0, 12)).toBe(-2);
});

test('two circles leave the difference of radii less the offset, on the side they are moved to', () => {
  expect(twoCircles.length).toBe(4);
  for (const [outer, inner, ahead, above, gap, direction] of twoCircles) {
    const outline = standingOutline(roundTyre(inner), setup, 45e3, 0);
    const found = smallestGap(outline, arc(outer, 180, 20), { ahead: -ahead, above: -above });
    expect(Math.abs(found.gap - gap)).toBeLessThan(1e-10);
    // Directions are counted from straight ahead upward there, from straight up forward here.
    expect(Math.abs(90 - found.angle / DEGREE - direction)).toBeLessThan(1e-4);
  }
});

test('static gaps of a round tyre are plain geometry', () => {
  expect(plainGaps.length).toBe(7);
  for (const [ahead, degrees, gap] of plainGaps) {
    const tub = { ...arc(23.5, 180, 10), centreForward: ahead };
    const [found] = staticGaps(roundTyre(17.25), setup, 45e3, 0, tub, 39 - 16.5, [degrees * DEGREE]);
    expect(Math.abs(found! - gap)).toBeLessThan(1e-10);
  }
});

test('a leg is straight and tangent, and past its end the distance is to the end', () => {
  // By hand, in a tub of 10 with legs of 4: beside a leg 10 − 7; past its end at (10, −4) from (7, −8).
  expect(tubGap(arc(10, 180, 4), 7, -3)).toBeCloseTo(3, 12);
  expect(tubGap(arc(10, 180, 4), -7, -3)).toBeCloseTo(3, 12);
  expect(tubGap(arc(10, 180, 4), 7, -8)).toBeCloseTo(5, 12);
  expect(tubGap(arc(10, 180, 4), 12, -3)).toBeCloseTo(-2, 12);
  // A leg of 120° leans 30° from level: on it 4 along from the arc's end (8.66025, 5).
  const [ahead, above] = [10 * Math.sin(60 * DEGREE) + 2, 10 * Math.cos(60 * DEGREE) - 2 * Math.sqrt(3)];
  expect(tubGap(arc(10, 120, 5), ahead, above)).toBeCloseTo(0, 12);
  expect(legReach(arc(10, 180, 4))).toBeCloseTo(4, 12);
  expect(legReach(arc(10, 120, 5))).toBeCloseTo(5 * Math.sin(60 * DEGREE) - 5, 12);
});

test('the ceiling over a point is where the gap is the reserve', () => {
  for (const [extent, ahead, reserve] of [
    [180, 3, 0.5],
    [180, -8, 0],
    [150, 9.3, 0.4],
    [130, -9.8, 0.2],
  ] as const) {
    const tub = arc(10, extent, 6);
    expect(tubGap(tub, ahead, ceilingAbove(tub, ahead, reserve))).toBeCloseTo(reserve, 12);
  }
  // By hand: under the end of a leg at (10, −4) the reserve is a circle about it; further out nothing stands above.
  expect(ceilingAbove(arc(10, 180, 4), 9.6, 0.5)).toBeCloseTo(-4.3, 12);
  expect(ceilingAbove(arc(10, 180, 4), 10.6, 0.5)).toBe(Number.POSITIVE_INFINITY);
});

test('a panel has the arc, chord and segment of the circle', () => {
  expect(segments.length).toBe(4);
  for (const [degrees, length, chord, area] of segments) {
    const panel = tubPanel(47, degrees * DEGREE, 0, 20, 0);
    expect(off(panel.developedLength, length)).toBeLessThan(1e-12);
    expect(off(panel.sheetArea, 20 * length)).toBeLessThan(1e-12);
    expect(off(panel.endArea, area)).toBeLessThan(1e-12);
    // A leg of 1 adds a trapezoid that begins as wide as the chord.
    const half = 0.5 * degrees * DEGREE;
    const added = (chord + Math.cos(half)) * Math.sin(half);
    expect(off(tubPanel(47, degrees * DEGREE, 1, 20, 0).endArea, area + added)).toBeLessThan(1e-12);
  }
  expect(flatLengths.length).toBe(4);
  for (const [diameter, length] of flatLengths) {
    expect(off(tubPanel(diameter, Math.PI, 0, 1, 0).developedLength, length)).toBeLessThan(1e-11);
  }
});

test('a half tub has the sheet, ends and legs of plain geometry, along the middle of its skin', () => {
  const bare = tubPanel(47, Math.PI, 0, 20, 0);
  expect(off(bare.sheetArea, halfTub.sheet)).toBeLessThan(1e-12);
  expect(off(bare.endArea, halfTub.end)).toBeLessThan(1e-12);
  expect(off(tubPanel(47, Math.PI, 8, 20, 0).developedLength, halfTub.withLegs)).toBeLessThan(1e-11);
  expect(off(tubPanel(47, Math.PI, 0, 20, 0.04).developedLength, halfTub.middle)).toBeLessThan(1e-11);
  // By hand: 0.9526 m² of 3.4 kg/m².
  expect(panelMass(0.9526, 3.4)).toBeCloseTo(3.23884, 12);
});

test('side room is what is left inward and outward of the section', () => {
  // By hand, in: section 17 on a 16 in rim of 5 backspacing and 0.5 flange stands 3.5 outward of the mounting face.
  const wheel = { sectionWidth: 17, rimWidth: 16, backspacing: 5, flange: 0.5 };
  const room = sideRoom(wheel, { innerPanel: 7, bodySide: 14, sidePlay: 0.25, sideReserve: 0.5 });
  expect(room.innerGap).toBeCloseTo(7 - (8.5 - 3.5 + 0.25), 12);
  expect(room.outerGap).toBeCloseTo(14 - (8.5 + 3.5 + 0.25), 12);
  expect(room.widthNeeded).toBeCloseTo(17 + 2 * 0.75, 12);
});

test('the gap to a bar and to a corner is plain geometry, and zero where they meet', () => {
  const outline = standingOutline(roundTyre(17.25), setup, 45e3, 0);
  const gap = (point: Parameters<typeof hardPointFan>[0], drop = 0): number =>
    hardGap(outline, hardPointFan(point), drop, 0, Number.POSITIVE_INFINITY);
  // By hand: a bar of radius 1 with its middle at (12, 16), 20 from the axle.
  expect(gap({ shape: 'circle', ahead: 12, above: 16, radius: 1 })).toBeCloseTo(20 - 1 - 17.25, 9);
  // A corner at (9, 18) of a panel that lies ahead and above; the body drops by 2: (9, 16).
  const corner = Float64Array.of(9, 18, 20, 18, 20, 30, 9, 30);
  expect(gap({ shape: 'polygon', xy: corner })).toBeCloseTo(Math.hypot(9, 18) - 17.25, 6);
  expect(gap({ shape: 'polygon', xy: corner }, 2)).toBeCloseTo(Math.hypot(9, 16) - 17.25, 6);
  // A level edge 18 up: the nearest place is straight up.
  const edge = Float64Array.of(-5, 18, 5, 18, 5, 30, -5, 30);
  expect(gap({ shape: 'polygon', xy: edge })).toBeCloseTo(0.75, 6);
  expect(gap({ shape: 'polygon', xy: edge }, 0.75)).toBeCloseTo(0, 6);
  expect(gap({ shape: 'polygon', xy: edge }, 1)).toBeLessThan(0);
});
