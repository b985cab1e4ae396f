import fc from 'fast-check';
import { expect, test } from 'vitest';
import { bandDisplacement, fillBandShape, KIND, SHAPE_LENGTH } from '../src/tyre/band-shape.ts';
import { BULGE_LENGTH, CROWN_BULGE, fillBulgeBound, SIDE_BULGE } from '../src/tyre/bulge-bound.ts';
import { between } from './draws.ts';

const exponential = (low: number, high: number): fc.Arbitrary<number> =>
  between(Math.log(low), Math.log(high)).map(Math.exp);

/** Beyond what draws.ts holds, and beyond the bound's table. */
const bandDraw = fc.record({
  radius: between(0.3, 0.55),
  stiffness: exponential(2e4, 4e6),
  ratio: fc.oneof(exponential(0.05, 3), between(0.3, 1.3)),
  tension: exponential(1e4, 2e5),
  load: exponential(200, 2e4),
  thrust: fc.oneof(fc.constant(0), between(0, 1.5), between(0, 5)),
  halfPatch: fc.oneof(between(0, 0.6), fc.constant(0.6)),
});

test('no outline of a band rises above the bound on its bulge, and the bound is near it', () => {
  const shape = new Float64Array(SHAPE_LENGTH);
  const bound = new Float64Array(BULGE_LENGTH);
  const kinds = new Set<number>();
  const excess: number[] = [];
  let outside = 0;
  fc.assert(
    fc.property(bandDraw, ({ radius, stiffness, ratio, tension, load, thrust, halfPatch }) => {
      const tangential = stiffness * ratio;
      fillBandShape(shape, radius, stiffness, tangential, tension, load, thrust * load, halfPatch);
      fillBulgeBound(
        Float64Array.of(radius, tension, stiffness, tangential, load, thrust * load, halfPatch),
        bound,
      );
      if (bound[SIDE_BULGE] === Number.POSITIVE_INFINITY) {
        outside++;
        return;
      }
      kinds.add(shape[KIND]!);
      const largest = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];
      for (let quarter = -480; quarter <= 480; quarter++) {
        const here = bandDisplacement(shape, (quarter * Math.PI) / 720);
        if (Math.abs(quarter) <= 400) largest[CROWN_BULGE] = Math.max(largest[CROWN_BULGE]!, here);
        largest[SIDE_BULGE] = Math.max(largest[SIDE_BULGE]!, here);
      }
      expect(bound[CROWN_BULGE]).toBeGreaterThan(largest[CROWN_BULGE]!);
      expect(bound[SIDE_BULGE]).toBeGreaterThan(largest[SIDE_BULGE]!);
      // A firm sidewall, as the priors have it: what the table adds is a fraction of a millimetre a tonne.
      if (stiffness > 9 * tension && ratio > 0.4) {
        excess.push(((bound[CROWN_BULGE]! - largest[CROWN_BULGE]!) * radius * tension) / load);
      }
    }),
    { numRuns: 4000, endOnFailure: true },
  );
  expect(kinds.size).toBeGreaterThan(1);
  expect(outside).toBeLessThan(2000);
  excess.sort((a, b) => a - b);
  expect(excess[Math.floor(0.5 * excess.length)]).toBeLessThan(1e-3);
});

test('where its table ends there is no bound', () => {
  const bound = new Float64Array(BULGE_LENGTH);
  const ask = (stiffness: number, ratio: number, load: number, thrust: number, halfPatch: number): number => {
    fillBulgeBound(Float64Array.of(0.45, 3e4, stiffness, stiffness * ratio, load, thrust, halfPatch), bound);
    return bound[CROWN_BULGE]!;
  };
  expect(ask(7e5, 0.7, 6e3, 3e3, 0.3)).toBeLessThan(0.05);
  for (const beyond of [
    ask(2.9e4, 0.7, 6e3, 3e3, 0.3),
    ask(4.4e6, 0.7, 6e3, 3e3, 0.3),
    ask(7e5, 0.09, 6e3, 3e3, 0.3),
    ask(7e5, 2.6, 6e3, 3e3, 0.3),
    ask(7e5, 0.7, 6e3, 2.5e4, 0.3),
    ask(7e5, 0.7, 6e3, -1, 0.3),
    ask(7e5, 0.7, 0, 0, 0.3),
    ask(7e5, 0.7, 6e3, 3e3, 0.61),
    ask(Number.NaN, 0.7, 6e3, 3e3, 0.3),
  ]) {
    expect(beyond).toBe(Number.POSITIVE_INFINITY);
  }
});
