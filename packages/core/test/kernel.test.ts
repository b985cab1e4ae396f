import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  createMomentTable,
  createRunTable,
  evaluateRuns,
  fillAxleHeights,
  fillMomentTable,
  type HardPoint,
  hardGap,
  hardPointFan,
  MOMENTS,
  outlineRadius,
  staticLoadedRadius,
  tyreColumn,
} from '../src/index.ts';
import { hardPointGap, standsUnderTyre } from '../src/tub/hardpoint.ts';
import { SHAPE_END } from '../src/tyre/band-shape.ts';
import { between, carDraw, hardDraw, reserveDraw, runDraw, tubDraw, tyreDraw } from './draws.ts';
import { kernelRun } from './kernel-run.ts';
import { outlineOf, round, shapeDraw } from './shapes.ts';
import { checkedState } from './state-laws.ts';

/** As in the search's own test: no tub of the kind fits. */
const NO_HEIGHT = 3;

const caseDraw = fc.record({
  car: carDraw,
  tyre: tyreDraw,
  build: tyreDraw,
  tubs: fc.array(tubDraw, { minLength: 3, maxLength: 3 }),
  notch: fc.record({ angle: between(-1, 1), depth: between(0, 0.03) }),
  reserve: reserveDraw,
  run: runDraw,
  growthFactor: fc.constantFrom(1, 1.25),
});

test('the kernel gives the bits of the highest of the states, in every tub, with every tyre', () => {
  const decided = new Set<string>();
  let compared = 0;
  fc.assert(
    fc.property(caseDraw, fc.nat(2), ({ car, tyre, build, tubs, notch, reserve, run, growthFactor }, t) => {
      const { values, setup: tyreSetup } = tyre;
      const buildPressure = build.setup.referencePressure;
      const axleHeight = staticLoadedRadius(car, build.values, build.setup, buildPressure);
      const [first, ...others] = tubs;
      const candidates = [...others, { ...first!, notches: [notch] }];
      const setup = { ...run, tubs: candidates, hardPoints: [], reserve, growthFactor };
      const table = kernelRun(setup, tyreSetup, car, values, axleHeight);
      const tub = candidates[t]!;
      const states = MOMENTS.map((moment) =>
        checkedState({
          car,
          tyre: values,
          tyreSetup,
          run,
          build: { tyre: build.values, tyreSetup: build.setup, pressure: buildPressure },
          tub,
          topHeight: axleHeight + tub.radius,
          reserve,
          moment,
          growthFactor,
        }),
      ).filter((state) => state.happens);
      const highest = Math.max(...states.map((state) => state.requiredHeight));
      expect(table.requiredHeight[t]).toBe(highest);
      expect(table.contactHeight[t]).toBe(Math.max(...states.map((state) => state.contactHeight)));
      if (!(highest < NO_HEIGHT)) return;
      const moment = MOMENTS[table.tightMoment[t]!]!;
      const deciding = states.filter((state) => state.requiredHeight === highest);
      expect(deciding.map((state) => state.requiredAngle)).toContain(table.tightAngle[t]);
      decided.add(`${tyreSetup.construction} ${moment}`);
      compared++;
    }),
    { numRuns: 200, endOnFailure: true },
  );
  expect(compared).toBeGreaterThan(100);
  expect(decided.size).toBeGreaterThan(6);
});

test('a block of runs gives what each run alone gives, whoever stands beside it', () => {
  const cars = fc.sample(carDraw, { numRuns: 40, seed: 11 });
  const tyres = fc.sample(tyreDraw, { numRuns: 40, seed: 12 });
  const tyreSetup = tyres[0]!.setup;
  const values = tyres
    .filter((tyre) => tyre.setup.construction === tyreSetup.construction)
    .map((tyre) => tyre.values);
  const count = values.length;
  expect(count).toBeGreaterThan(10);
  const [tub] = fc.sample(tubDraw, { numRuns: 1, seed: 13 });
  const setup = {
    distance: 304.8,
    finishAccelerationIs: 'absolute' as const,
    gripLostChance: 0.5,
    tubs: [tub!],
    hardPoints: [hardPointFan({ shape: 'circle', ahead: 0.35, above: 0.4, radius: 0.02 })],
    reserve: 0.01,
    growthFactor: 1,
  };
  const columns = (rows: readonly Float64Array[]): Float64Array[] =>
    Array.from(rows[0]!, (_, c) => Float64Array.from(rows.slice(0, count), (row) => row[c]!));
  const carColumns = columns(cars);
  const tyreColumns = columns(values);
  const axles = new Float64Array(count);
  fillAxleHeights(tyreSetup, tyreSetup.referencePressure, carColumns, tyreColumns, count, axles);
  const moments = createMomentTable(count);
  fillMomentTable(setup, carColumns, count, moments);
  const table = createRunTable(setup, count);
  evaluateRuns(setup, tyreSetup, carColumns, tyreColumns, moments, axles, count, table);
  values.forEach((value, run) => {
    expect(axles[run]).toBe(staticLoadedRadius(cars[run]!, value, tyreSetup, tyreSetup.referencePressure));
    const alone = kernelRun(setup, tyreSetup, cars[run]!, value, axles[run]!);
    expect(table.requiredHeight[run]).toBe(alone.requiredHeight[0]);
    expect(table.contactHeight[run]).toBe(alone.contactHeight[0]);
    expect(table.tightAngle[run]).toBe(alone.tightAngle[0]);
    expect(table.tightMoment[run]).toBe(alone.tightMoment[0]);
    expect(table.tightWall[run]).toBe(alone.tightWall[0]);
    expect(table.hardGap[run]).toBe(alone.hardGap[0]);
  });
});

test('a run that leaves the model has no height in any tub', () => {
  // Bug: only the first tub came out NaN; the others read as never touched.
  const [drawn] = fc.sample(caseDraw, { numRuns: 1, seed: 5 });
  const { car, tyre, tubs, run } = drawn!;
  tyre.values[tyreColumn('coldPressure')] = -1e5;
  const setup = {
    ...run,
    tubs,
    hardPoints: [],
    reserve: 0.01,
    growthFactor: 1,
  };
  const table = kernelRun(setup, tyre.setup, car, tyre.values, 0.4);
  expect([...table.requiredHeight, ...table.contactHeight]).toEqual(Array(6).fill(Number.NaN));
});

/** Every 0.05° of the outline down to its patch, and whatever corner of the point the tyre holds. */
function denseHardGap(outline: Float64Array, point: HardPoint, drop: number, forward: number): number {
  let least = Number.POSITIVE_INFINITY;
  const end = outline[SHAPE_END]!;
  for (let k = -3600; k <= 3600; k++) {
    const angle = (k * end) / 3600;
    const r = outlineRadius(outline, angle);
    least = Math.min(least, hardPointGap(point, r * Math.sin(angle) + forward, r * Math.cos(angle) + drop));
  }
  const corners = point.shape === 'circle' ? [point.ahead, point.above] : [...point.xy];
  const size = point.shape === 'circle' ? point.radius : 0;
  for (let i = 0; i < corners.length; i += 2) {
    const [x, z] = [corners[i]! - forward, corners[i + 1]! - drop];
    const angle = Math.atan2(x, z);
    if (Math.abs(angle) > end) continue;
    const gap = Math.hypot(x, z) - outlineRadius(outline, angle) - size;
    if (gap < 0) least = Math.min(least, gap);
  }
  return least;
}

test('the gap to a hard point is within 0.2 mm of a dense search, and its sign says whether it is touched', () => {
  const draw = fc.record({
    shape: shapeDraw,
    point: hardDraw,
    drop: between(-0.02, 0.08),
    forward: between(0, 0.02),
  });
  fc.assert(
    fc.property(draw, ({ shape, point, drop, forward }) => {
      fc.pre(!standsUnderTyre(point));
      const outline = outlineOf(shape);
      const fan = hardPointFan(point);
      const dense = denseHardGap(outline, point, drop, forward);
      const found = hardGap(outline, fan, drop, forward, Number.POSITIVE_INFINITY);
      // Beyond 20° from its corners a point far from the tyre may have a nearer place; a touch never does.
      if (dense < 0.05) expect(found - dense).toBeLessThan(2e-4);
      if (dense < -2e-4) expect(found).toBeLessThan(0);
      if (dense > 2e-4) expect(found).toBeGreaterThan(0);
      // Stopped early it says Infinity only where there is enough room.
      const early = hardGap(outline, fan, drop, forward, 0.01);
      expect(early === found || dense > 0.01 - 1e-9).toBe(true);
    }),
    { numRuns: 300, endOnFailure: true },
  );
});

test('a low bar is measured against the outline beside it, and one under the tyre is refused', () => {
  // Bug: the outline was followed to 120° only; a bar 0.7 in from the tyre at 135° was told 4.27 in.
  const bar = (degrees: number): HardPoint => {
    const angle = (degrees * Math.PI) / 180;
    return { shape: 'circle', ahead: 0.49 * Math.sin(angle), above: 0.49 * Math.cos(angle), radius: 0.02 };
  };
  for (const degrees of [100, 121, 125, 135, 142, -142]) {
    const fan = hardPointFan(bar(degrees));
    expect(hardGap(round(0.45), fan, 0, 0, Number.POSITIVE_INFINITY)).toBeCloseTo(0.02, 9);
  }
  // By hand: 145.6° is π − 0.6; a bar that reaches it, and a panel with a corner on either side that passes below.
  expect(() => hardPointFan(bar(146))).toThrow(RangeError);
  const under = Float64Array.of(-0.6, -0.2, 0.6, -0.2, 0.6, -0.4, -0.6, -0.4);
  expect(standsUnderTyre({ shape: 'polygon', xy: under })).toBe(true);
  const over = Float64Array.of(-0.6, 0.6, 0.6, 0.6, 0.6, 0.8, -0.6, 0.8);
  expect(standsUnderTyre({ shape: 'polygon', xy: over })).toBe(false);
});

test('a bar that the grown tyre has swallowed is touched', () => {
  // Bug: the gap was measured from the outline alone, so a bar wholly inside it read as clear.
  const gap = (away: number): number =>
    hardGap(round(0.45), hardPointFan({ shape: 'circle', ahead: 0, above: away, radius: 0.02 }), 0, 0, 1);
  expect(gap(0.5)).toBeCloseTo(0.03, 9);
  expect(gap(0.4)).toBeCloseTo(-0.07, 9);
  // Moving the body down and the axle forward brings the bar nearer by as much.
  const point = { shape: 'circle', ahead: 0.4, above: 0.3, radius: 0.02 } as const;
  expect(hardGap(round(0.45), hardPointFan(point), 0.04, 0.03, 1)).toBeCloseTo(
    Math.hypot(0.37, 0.26) - 0.47,
    9,
  );
});

test('a stance is the bits of its own run, whichever one number differs from the run before', () => {
  fc.assert(
    fc.property(carDraw, tyreDraw, (car, { values, setup }) => {
      const columnsOf = (draw: Float64Array, c: number): Float64Array[] =>
        Array.from(draw, (value, i) => Float64Array.of(value, value, i === c ? 1.07 * value + 1e-3 : value));
      const count = car.length + values.length;
      for (let c = 0; c < count; c++) {
        const axles = new Float64Array(3);
        const [cars, tyres] = [columnsOf(car, c), columnsOf(values, c - car.length)];
        fillAxleHeights(setup, setup.referencePressure, cars, tyres, 3, axles);
        for (const run of [1, 2]) {
          const row = (columns: Float64Array[]) => Float64Array.from(columns, (column) => column[run]!);
          expect(axles[run]).toBe(staticLoadedRadius(row(cars), row(tyres), setup, setup.referencePressure));
        }
      }
    }),
    { numRuns: 20 },
  );
});
