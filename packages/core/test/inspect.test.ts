import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  type ClearanceState,
  clearanceState,
  fillGaps,
  type HardPoint,
  hardGap,
  hardPointFan,
  MOMENTS,
  type Moment,
  staticLoadedRadius,
  type Tub,
} from '../src/index.ts';
import { between, carDraw, runDraw, tubDraw, tyreDraw } from './draws.ts';

const notches = fc.array(fc.record({ angle: between(-1.2, 1.2), depth: between(0, 0.05) }), {
  minLength: 1,
  maxLength: 3,
});
const bar: HardPoint = { shape: 'circle', ahead: -0.47, above: 0.2, radius: 0.02 };

/** A run with a tyre and another build tyre, in two tubs, one of them with notches. */
const caseDraw = fc
  .record({
    car: carDraw,
    tyre: tyreDraw,
    build: tyreDraw,
    plain: tubDraw,
    cut: fc.record({ tub: tubDraw, notches }).map(({ tub, notches }): Tub => ({ ...tub, notches })),
    run: runDraw,
    growthFactor: fc.constantFrom(1, 1.25),
    top: between(0.95, 1.25),
  })
  .map((drawn) => {
    const { setup: tyreSetup, values } = drawn.build;
    const pressure = tyreSetup.referencePressure;
    const axleHeight = staticLoadedRadius(drawn.car, values, tyreSetup, pressure);
    return { ...drawn, axleHeight, built: { tyre: values, tyreSetup, pressure } };
  });
type DrawnCase = typeof caseDraw extends fc.Arbitrary<infer Value> ? Value : never;

const single = (values: Float64Array): Float64Array[] =>
  Array.from(values, (value) => Float64Array.of(value));
const columnsOf = ({ car, tyre }: DrawnCase) => ({ car: single(car), tyre: single(tyre.values) });

const stateOf = (drawn: DrawnCase, tub: Tub, topHeight: number, moment: Moment): ClearanceState =>
  clearanceState({
    car: drawn.car,
    tyre: drawn.tyre.values,
    tyreSetup: drawn.tyre.setup,
    run: drawn.run,
    build: drawn.built,
    tub,
    topHeight,
    reserve: 0,
    moment,
    growthFactor: drawn.growthFactor,
  });

test('gaps of a block are the least of the states’, with their angle and moment, and a nearer hard point’s', () => {
  let byBar = 0;
  let byTub = 0;
  fc.assert(
    fc.property(caseDraw, fc.boolean(), (drawn, hasBar) => {
      const fans = hasBar ? [hardPointFan(bar)] : [];
      const setup = {
        ...drawn.run,
        tubs: [],
        hardPoints: fans,
        reserve: 0,
        growthFactor: drawn.growthFactor,
      };
      const places = [
        { tub: drawn.plain, heights: [drawn.top, drawn.top + 0.05] },
        { tub: drawn.cut, heights: [drawn.top] },
      ];
      const table = {
        capacity: 1,
        gap: new Float64Array(3),
        angle: new Float64Array(3),
        moment: new Uint8Array(3),
      };
      fillGaps(
        setup,
        drawn.tyre.setup,
        columnsOf(drawn),
        Float64Array.of(drawn.axleHeight),
        1,
        places,
        table,
      );
      let row = 0;
      for (const { tub, heights } of places) {
        for (const height of heights) {
          const found = MOMENTS.map((moment, m) => ({ m, state: stateOf(drawn, tub, height, moment) }))
            .filter(({ state }) => state.happens)
            .map(({ m, state }) => {
              const drop = state.bodyDrop + state.bump;
              const hard = fans.map((fan) => hardGap(state.outline, fan, drop, state.forward, 1));
              return { m, state, hard: Math.min(Number.POSITIVE_INFINITY, ...hard) };
            });
          const gap = Math.min(...found.flatMap(({ state, hard }) => [state.gap, hard]));
          expect(Math.abs(table.gap[row]! - gap)).toBeLessThan(1e-9);
          const deciding = found.filter(({ state, hard }) => Math.min(state.gap, hard) < gap + 1e-9);
          expect(deciding.map(({ m }) => m)).toContain(table.moment[row]);
          if (deciding.every(({ state, hard }) => hard < state.gap)) {
            // The bar stands at 293°, 67° behind straight up.
            expect(table.angle[row]!).toBeLessThan(-0.7);
            byBar++;
          } else byTub++;
          row++;
        }
      }
    }),
    { numRuns: 120, endOnFailure: true },
  );
  expect(byTub).toBeGreaterThan(100);
  expect(byBar).toBeGreaterThan(20);
});
