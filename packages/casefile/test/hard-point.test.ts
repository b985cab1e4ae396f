import fc from 'fast-check';
import { expect, test } from 'vitest';
import { distanceFromAxle, outlineFault } from '../src/parts/hard-point.ts';

const onCircle = (angles: readonly number[]) =>
  angles.map((angle) => ({ ahead: 3 * Math.cos(angle), above: 2 + Math.sin(angle) }));

test('corners round an ellipse are convex in either direction, from any first corner', () => {
  const steps = fc.array(fc.double({ min: 0.1, max: 1, noNaN: true }), { minLength: 3, maxLength: 12 });
  fc.assert(
    fc.property(steps, fc.nat(), (widths, first) => {
      const whole = widths.reduce((sum, width) => sum + width, 0);
      let angle = 0;
      const points = onCircle(widths.map((width) => (angle += (width / whole) * 2 * Math.PI)));
      const turned = points.map((_, index) => points[(index + first) % points.length]!);
      expect(outlineFault(turned)).toBeUndefined();
      expect(outlineFault(turned.toReversed())).toBeUndefined();
    }),
  );
});

test('a star, a dart, a line and a repeated corner are no convex outline', () => {
  const star = onCircle([0, 2, 4, 1, 3].map((step) => (step * 2 * Math.PI) / 5));
  expect(outlineFault(star)).toBe('the outline crosses itself');
  const square = [
    { ahead: 0, above: 0 },
    { ahead: 2, above: 0 },
    { ahead: 2, above: 2 },
    { ahead: 0, above: 2 },
  ];
  expect(outlineFault(square)).toBeUndefined();
  expect(outlineFault(square.with(3, { ahead: 1.5, above: 0.5 }))).toBe(
    'the outline bends inward at corner 4',
  );
  expect(outlineFault([square[0]!, square[1]!, { ahead: 5, above: 0 }])).toBe('all corners lie on one line');
  expect(outlineFault([square[0]!, square[1]!, square[1]!, square[2]!])).toBe(
    'two corners in a row are the same',
  );
});

// Plane geometry, derived by hand: 3-4-5 triangle, and a wall two ahead of the axle.
test('distance from the axle is to the nearest point of the hard point', () => {
  const bar = { name: 'bar', shape: 'circle', ahead: 3, above: 4, radius: 1 } as const;
  expect(distanceFromAxle(bar)).toBe(4);
  const wall = [
    { ahead: 2, above: -1 },
    { ahead: 5, above: -1 },
    { ahead: 5, above: 6 },
    { ahead: 2, above: 6 },
  ];
  expect(distanceFromAxle({ name: 'wall', shape: 'polygon', points: wall })).toBe(2);
  const around = wall.map(({ ahead, above }) => ({ ahead: ahead - 3, above }));
  expect(distanceFromAxle({ name: 'around', shape: 'polygon', points: around })).toBe(0);
});
