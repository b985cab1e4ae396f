import fc from 'fast-check';
import { expect, test } from 'vitest';
import { HAPPENS } from '../src/car/moments.ts';
import { roundFits } from '../src/clearance/round-fits.ts';
import {
  CAR_INPUTS,
  type ClearanceSetup,
  CONSTRUCTIONS,
  createMomentTable,
  createRunTable,
  evaluateRuns,
  fillMomentTable,
  hardPointFan,
  loadedRadius,
  MOMENT_LENGTH,
  MOMENTS,
  type RunTable,
  standsUnderTyre,
  TYRE_INPUTS,
  tyreColumn,
} from '../src/index.ts';
import { between, CAR_RANGES, draw, hardDraw, reserveDraw, runDraw, TYRE_RANGES, tubDraw } from './draws.ts';
import { kernelRun } from './kernel-run.ts';

const RUNS = 24;

/** Runs of one tyre, with everything that the kernel asks for. */
const blockDraw = fc.constantFrom(...CONSTRUCTIONS).chain((construction) =>
  fc.record({
    tyreSetup: fc.record({
      construction: fc.constant(construction),
      referencePressure: between(...TYRE_RANGES[construction].coldPressure),
      radialStiffness: between(Math.log(6e4), Math.log(1.2e6)).map(Math.exp),
    }),
    cars: fc.array(draw(CAR_INPUTS, CAR_RANGES), { minLength: RUNS, maxLength: RUNS }),
    tyres: fc.array(draw(TYRE_INPUTS, TYRE_RANGES[construction]), { minLength: RUNS, maxLength: RUNS }),
  }),
);

const notchDraw = fc.record({ angle: between(-1.3, 1.3), depth: between(0, 0.04) });

const setupDraw = fc
  .record({
    run: runDraw,
    tubs: fc.array(
      fc
        .tuple(tubDraw, fc.array(notchDraw, { maxLength: 2 }))
        .map(([tub, notches]) => (notches.length > 0 ? { ...tub, notches } : tub)),
      { minLength: 1, maxLength: 4 },
    ),
    points: fc.array(hardDraw, { maxLength: 2 }),
    reserve: reserveDraw,
    growthFactor: fc.constantFrom(1, 1.25),
  })
  .map(
    ({ run, tubs, points, reserve, growthFactor }): ClearanceSetup => ({
      ...run,
      tubs,
      hardPoints: points.filter((point) => !standsUnderTyre(point)).map(hardPointFan),
      reserve,
      growthFactor,
    }),
  );

const columns = (rows: readonly Float64Array[]): Float64Array[] =>
  Array.from(rows[0]!, (_, c) => Float64Array.from(rows, (row) => row[c]!));

test('above the floor a run has the bits that it has without one, and at the floor no more than it', () => {
  const decided = new Set<string>();
  let above = 0;
  let below = 0;
  fc.assert(
    fc.property(
      blockDraw,
      setupDraw,
      fc.array(between(0, 1), { minLength: 4, maxLength: 4 }),
      ({ tyreSetup, cars, tyres }, setup, shares) => {
        const [car, tyre] = [columns(cars), columns(tyres)];
        const moments = createMomentTable(RUNS);
        fillMomentTable(setup, car, RUNS, moments);
        const axles = Float64Array.from(tyres, (values, run) =>
          loadedRadius(values, tyreSetup, values[tyreColumn('coldPressure')]!, 4e3 + 50 * run),
        );
        const evaluate = (floors?: Float64Array): RunTable => {
          const table = createRunTable(setup, RUNS);
          // What an earlier block has left.
          for (const left of [table.tightAngle, table.tightMoment, table.tightWall]) left.fill(7);
          evaluateRuns(setup, tyreSetup, car, tyre, moments, axles, RUNS, table, floors);
          return table;
        };
        const whole = evaluate();
        // Floors between the runs' own heights, so that runs lie just above and just below.
        const floors = Float64Array.from(setup.tubs, (_, t) => {
          const heights = whole.requiredHeight.slice(t * RUNS, (t + 1) * RUNS).sort();
          return heights[Math.floor(shares[t]! * (RUNS - 1))]! - 1e-9;
        });
        const sieved = evaluate(floors);
        for (let place = 0; place < setup.tubs.length * RUNS; place++) {
          const floor = floors[Math.floor(place / RUNS)]!;
          const needed = whole.requiredHeight[place]!;
          expect(sieved.requiredHeight[place]).toBe(Math.max(floor, needed));
          expect(sieved.contactHeight[place]).toBe(Math.max(floor, whole.contactHeight[place]!));
          if (!(needed > floor)) {
            below++;
            for (const left of [sieved.tightAngle, sieved.tightMoment, sieved.tightWall]) {
              expect(left[place]).toBe(0);
            }
            continue;
          }
          above++;
          expect(sieved.tightAngle[place]).toBe(whole.tightAngle[place]);
          expect(sieved.tightMoment[place]).toBe(whole.tightMoment[place]);
          expect(sieved.tightWall[place]).toBe(whole.tightWall[place]);
          decided.add(`${MOMENTS[whole.tightMoment[place]!]} ${whole.tightWall[place]}`);
        }
        whole.hardGap.forEach((gap, place) => {
          if (gap < setup.reserve) expect(sieved.hardGap[place]).toBe(gap);
          else expect(sieved.hardGap[place]).toBeGreaterThanOrEqual(setup.reserve);
        });
      },
    ),
    { numRuns: 300, endOnFailure: true },
  );
  expect(above).toBeGreaterThan(3000);
  expect(below).toBeGreaterThan(3000);
  expect(decided.size).toBeGreaterThan(12);
});

test('a run needs what the neediest of its moments needs alone, contact and reserve each for itself', () => {
  let apart = 0;
  fc.assert(
    fc.property(blockDraw, setupDraw, between(0.01, 0.08), ({ tyreSetup, cars, tyres }, drawn, reserve) => {
      const setup = { ...drawn, reserve };
      const [car, tyre] = [columns(cars), columns(tyres)];
      const moments = createMomentTable(RUNS);
      fillMomentTable(setup, car, RUNS, moments);
      const axles = new Float64Array(RUNS).fill(0.4);
      const evaluate = (only?: number): RunTable => {
        const some = moments.slice();
        for (let at = 0; at < some.length; at += MOMENT_LENGTH) {
          if (only !== undefined && (at / MOMENT_LENGTH) % MOMENTS.length !== only) some[at + HAPPENS] = 0;
        }
        const table = createRunTable(setup, RUNS);
        evaluateRuns(setup, tyreSetup, car, tyre, some, axles, RUNS, table);
        return table;
      };
      const whole = evaluate();
      const alone = MOMENTS.map((_, m) => evaluate(m));
      whole.requiredHeight.forEach((needed, place) => {
        expect(needed).toBe(Math.max(...alone.map((table) => table.requiredHeight[place]!)));
        const contacts = alone.map((table) => table.contactHeight[place]!);
        expect(whole.contactHeight[place]).toBe(Math.max(...contacts));
        if (whole.contactHeight[place] !== contacts[whole.tightMoment[place]!]) apart++;
      });
    }),
    { numRuns: 150, endOnFailure: true },
  );
  expect(apart).toBeGreaterThan(20);
});

test('no round tyre fits a tub that stands beside it', () => {
  const tub = { radius: 0.6, halfExtent: 1.4, legLength: 0.1, centreForward: 0 };
  for (const [offset, fits] of [
    [0.1, true],
    [1.2, false],
    [-1.2, false],
  ] as const) {
    expect(roundFits(0.45, 0.45, tub, offset, 0.01, 1.3)).toBe(fits);
  }
});

test('a run that leaves the model has no height, however high the floor', () => {
  const [block] = fc.sample(blockDraw, { numRuns: 1, seed: 5 });
  const { tyreSetup, cars, tyres } = block!;
  const [setup] = fc.sample(setupDraw, { numRuns: 1, seed: 7 });
  const tubs = setup!.tubs.map((tub) => ({ ...tub, radius: 0.9 }));
  const floors = new Float64Array(tubs.length).fill(2);
  const needed = (tyre: Float64Array): number[] => [
    ...kernelRun({ ...setup!, tubs }, tyreSetup, cars[0]!, tyre, 0.4, floors).requiredHeight,
  ];
  expect(needed(tyres[0]!)).toEqual([...floors]);
  for (const name of TYRE_INPUTS) {
    const tyre = tyres[0]!.slice();
    tyre[tyreColumn(name)] = Number.NaN;
    const whole = kernelRun({ ...setup!, tubs }, tyreSetup, cars[0]!, tyre, 0.4).requiredHeight;
    expect(needed(tyre).map(Number.isNaN), name).toEqual([...whole].map(Number.isNaN));
  }
});
