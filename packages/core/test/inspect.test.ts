import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  type ClearanceState,
  carColumn,
  clearanceState,
  fillAngles,
  fillGaps,
  fillShareTable,
  gapAtAngle,
  type HardPoint,
  hardGap,
  hardPointFan,
  MOMENTS,
  type Moment,
  outlineRadius,
  SHARE_ROWS,
  SHARES,
  smallestGap,
  staticLoadedRadius,
  type Tub,
  tyreColumn,
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

/** The tub as the axle sees it standing still, by hand: springs reset for the tyre hold the body higher by that much. */
function restPlace({ car, tyre, axleHeight }: DrawnCase, tub: Tub, topHeight: number) {
  const ride = tyre.values[tyreColumn('rideHeightChange')]!;
  const crown = topHeight + car[carColumn('topHeightError')]! - axleHeight;
  return {
    ahead: tub.centreForward + car[carColumn('centreError')]! + car[carColumn('axlePathSlope')]! * ride,
    above: crown + ride - tub.radius,
  };
}

const DEGREE = Math.PI / 180;

test('radii and gaps by hub angle are the states’ own, at rest with the ride height that the tyre was given', () => {
  const angles = Float64Array.from([-120, -75, -30, 0, 12.5, 45, 90], (degrees) => degrees * DEGREE);
  const table = () => ({ capacity: 2, angles, values: new Float64Array(2 * angles.length) });
  fc.assert(
    fc.property(caseDraw, (drawn) => {
      const { cut: tub, top: topHeight, tyre, run, growthFactor } = drawn;
      const setup = { ...run, tubs: [], hardPoints: [], reserve: 0, growthFactor };
      const radii = table();
      const gaps = { tub, topHeight, atRest: table(), inRun: table() };
      const columns = columnsOf(drawn);
      fillAngles(setup, tyre.setup, columns, Float64Array.of(drawn.axleHeight), 1, radii, gaps);
      const states = MOMENTS.map((moment) => stateOf(drawn, tub, topHeight, moment)).filter((s) => s.happens);
      const rest = restPlace(drawn, tub, topHeight);
      angles.forEach((angle, k) => {
        const cell = k * 2;
        const radius = Math.max(...states.map((state) => outlineRadius(state.outline, angle)));
        expect(Math.abs(radii.values[cell]! - radius)).toBeLessThan(1e-12);
        const inRun = states.map(({ outline, centreAhead, centreAbove }) =>
          gapAtAngle(outline, tub, { ahead: centreAhead, above: centreAbove }, angle),
        );
        expect(Math.abs(gaps.inRun.values[cell]! - Math.min(...inRun))).toBeLessThan(1e-11);
        const atRest = gapAtAngle(states[0]!.staticOutline, tub, rest, angle);
        expect(Math.abs(gaps.atRest.values[cell]! - atRest)).toBeLessThan(1e-11);
      });
    }),
    { numRuns: 100, endOnFailure: true },
  );
});

test('shares of the closing are the state’s at every moment, the ride height in what the body drops', () => {
  fc.assert(
    fc.property(caseDraw, (drawn) => {
      const { cut: tub, top: topHeight, tyre, run, growthFactor, axleHeight } = drawn;
      const setup = { ...run, tubs: [], hardPoints: [], reserve: 0, growthFactor };
      const table = { capacity: 1, share: new Float64Array(MOMENTS.length * SHARE_ROWS) };
      fillShareTable(
        setup,
        tyre.setup,
        columnsOf(drawn),
        Float64Array.of(axleHeight),
        1,
        tub,
        topHeight,
        table,
      );
      MOMENTS.forEach((moment, m) => {
        const state = stateOf(drawn, tub, topHeight, moment);
        const rows = table.share.subarray(m * SHARE_ROWS, (m + 1) * SHARE_ROWS);
        if (!state.happens) {
          expect(rows.every(Number.isNaN)).toBe(true);
          return;
        }
        const rest = restPlace(drawn, tub, topHeight);
        const closing = smallestGap(state.staticOutline, tub, rest).gap - state.gap;
        expect(Math.abs(rows[SHARES.length]! - closing)).toBeLessThan(1e-9);
        SHARES.forEach((share, s) => {
          expect(Math.abs(rows[s]! - state.shares[share])).toBeLessThan(1e-9);
        });
      });
    }),
    { numRuns: 60, endOnFailure: true },
  );
});

test('the body drop’s share is the way from rest, ride height and all', () => {
  // By hand: under an arc of 40 m, all but level over a tyre, the gap closes by what the body comes down.
  fc.assert(
    fc.property(caseDraw, between(-0.02, 0.02), (drawn, ride) => {
      const values = drawn.tyre.values.slice();
      values[tyreColumn('rideHeightChange')] = ride;
      values[tyreColumn('lobeHeight')] = 0;
      const tub = { radius: 40, halfExtent: Math.PI / 2, legLength: 0, centreForward: 0 };
      const own = { ...drawn, tyre: { setup: drawn.tyre.setup, values } };
      const setup = { ...drawn.run, tubs: [], hardPoints: [], reserve: 0, growthFactor: 1 };
      const table = { capacity: 1, share: new Float64Array(MOMENTS.length * SHARE_ROWS) };
      const axles = Float64Array.of(drawn.axleHeight);
      fillShareTable(setup, own.tyre.setup, columnsOf(own), axles, 1, tub, 1.1, table);
      MOMENTS.forEach((moment, m) => {
        const state = stateOf({ ...own, growthFactor: 1 }, tub, 1.1, moment);
        if (!state.happens) return;
        const share = table.share[m * SHARE_ROWS + SHARES.indexOf('body drop')]!;
        const way = state.bodyDrop + ride;
        expect(Math.abs(share - way)).toBeLessThan(1e-4 * Math.abs(way) + 1e-9);
      });
    }),
    { numRuns: 60, endOnFailure: true },
  );
});
