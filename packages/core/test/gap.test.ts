import fc from 'fast-check';
import { expect, test } from 'vitest';
import { outlineRadius, smallestGap, type Tub, tubGap } from '../src/index.ts';
import { legEndSide, legReach } from '../src/tub/profile.ts';
import { SHAPE_END } from '../src/tyre/band-shape.ts';
import { between } from './draws.ts';
import { outlineOf, shapeDraw } from './shapes.ts';

const DEGREE = Math.PI / 180;

const notches = fc.array(fc.record({ angle: between(-1.25, 1.25), depth: between(0, 0.06) }), {
  maxLength: 3,
});

/** Tubs of every arc and leg, many narrower than their tyre, with flats cut into them; and lobes of up to 2 in. */
const draw = fc.record({
  shape: shapeDraw,
  lobeHeight: fc.oneof(between(0, 0.02), between(0.02, 0.05)),
  lobeAngle: between(-1.2, 1.2),
  tub: fc.record({
    radius: between(0.38, 0.66),
    halfExtent: fc.oneof(fc.constant(Math.PI / 2), between(Math.PI / 6, Math.PI / 2)),
    legLength: fc.oneof(fc.constant(0), between(0, 0.35)),
    centreForward: fc.constant(0),
    notches: fc.oneof(fc.constant(undefined), notches),
  }),
  ahead: between(-0.06, 0.06),
  above: between(-0.05, 0.3),
});

/** Every 0.02° of ±120°, and the ends of both legs in their own direction: negative where the tyre holds one. */
function denseGap(outline: Float64Array, tub: Tub, ahead: number, above: number): number {
  let least = Number.POSITIVE_INFINITY;
  const look = (angle: number, way: 1 | -1 = 1): void => {
    const r = outlineRadius(outline, angle);
    const gap = tubGap(tub, r * Math.sin(angle) - ahead, r * Math.cos(angle) - above);
    least = Math.min(least, way < 0 ? -Math.abs(gap) : gap);
  };
  for (let k = -6000; k <= 6000; k++) look(0.02 * k * DEGREE);
  for (const side of [-1, 1]) {
    const [x, z] = [ahead + side * legEndSide(tub), above - legReach(tub)];
    const angle = Math.atan2(x, z);
    if (Math.abs(angle) >= outline[SHAPE_END]!) continue;
    look(angle, Math.hypot(x, z) < outlineRadius(outline, angle) ? -1 : 1);
  }
  return least;
}

test('the smallest gap is that of a dense search, whatever the notches, legs and lobe', () => {
  // Bug: read off a table every 10° it was told up to 44 mm too large between two notches, 8 mm too small at a leg's end.
  let clear = 0;
  let through = 0;
  fc.assert(
    fc.property(draw, ({ shape, lobeHeight, lobeAngle, tub: drawn, ahead, above }) => {
      const { notches, ...plain } = drawn;
      const tub = notches === undefined ? plain : { ...plain, notches };
      const outline = outlineOf({ ...shape, lobeHeight, lobeAngle });
      const dense = denseGap(outline, tub, ahead, above);
      const { gap } = smallestGap(outline, tub, { ahead, above });
      expect(gap).toBeLessThan(dense + 1e-6);
      // Between two of its places the dense search itself misses the end of a leg by up to r · 0.01°.
      expect(gap).toBeGreaterThan(dense - 2e-4);
      if (dense > 0) clear++;
      else through++;
    }),
    { numRuns: 400, endOnFailure: true },
  );
  expect(clear).toBeGreaterThan(60);
  expect(through).toBeGreaterThan(60);
});
