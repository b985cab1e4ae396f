import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  CAR_INPUTS,
  carColumn,
  fillHardGaps,
  type HardGapTable,
  hardGap,
  hardPointFan,
  MOMENTS,
  standingHardGap,
  TYRE_INPUTS,
  tyreColumn,
} from '../src/index.ts';
import { hardPointGap } from '../src/tub/hardpoint.ts';
import { carDraw, runDraw, tyreDraw } from './draws.ts';
import { kernelRun } from './kernel-run.ts';
import { round } from './shapes.ts';

const single = (values: Float64Array): Float64Array[] =>
  Array.from(values, (value) => Float64Array.of(value));

test('gaps to hard points are the kernel’s below the reserve and never less than it beyond', () => {
  let below = 0;
  let beyond = 0;
  fc.assert(
    fc.property(
      carDraw,
      tyreDraw,
      runDraw,
      fc.double({ min: 0.3, max: 0.6, noNaN: true }),
      (car, tyre, run, ahead) => {
        const points = [
          hardPointFan({ shape: 'circle', ahead, above: 0.2, radius: 0.02 }),
          hardPointFan({
            shape: 'polygon',
            xy: Float64Array.of(-ahead, 0.4, -ahead, 0.5, -ahead - 0.1, 0.5),
          }),
        ];
        const setup = { ...run, tubs: [], hardPoints: points, reserve: 0.02, growthFactor: 1 };
        const table: HardGapTable = {
          capacity: 1,
          gap: new Float64Array(2),
          angle: new Float64Array(2),
          moment: new Uint8Array(2),
        };
        fillHardGaps(setup, tyre.setup, { car: single(car), tyre: single(tyre.values) }, 1, table);
        const kernel = kernelRun(setup, tyre.setup, car, tyre.values, 0.4);
        points.forEach(({ point }, h) => {
          const gap = table.gap[h]!;
          expect(MOMENTS[table.moment[h]!]).toBeDefined();
          if (gap < setup.reserve) {
            expect(kernel.hardGap[h]).toBe(gap);
            below++;
          } else {
            expect(kernel.hardGap[h]).toBeGreaterThanOrEqual(gap);
            beyond++;
          }
          // The nearest place of the outline cannot be in the half of the tyre that is turned away from the point.
          const towards =
            point.shape === 'circle' ? Math.atan2(point.ahead, point.above) : Math.atan2(-ahead, 0.4);
          expect(Math.abs(table.angle[h]! - towards)).toBeLessThan(Math.PI / 2);
          expect(hardPointGap(point, 0, 0)).toBeGreaterThan(gap);
        });
      },
    ),
    { numRuns: 150, endOnFailure: true },
  );
  expect(below).toBeGreaterThan(30);
  expect(beyond).toBeGreaterThan(30);
});

test('a body that drops brings the flat of an edge beside the tyre that stood above it', () => {
  // By hand: an edge 0.33 ahead, 0.05 to 0.15 above the axle, dropped by 0.10, stands level with the axle: 0.33 − 0.30.
  const edge = Float64Array.of(0.33, 0.05, 0.33, 0.15, 0.4, 0.15, 0.4, 0.05);
  const fan = hardPointFan({ shape: 'polygon', xy: edge });
  expect(hardGap(round(0.3), fan, 0.1, 0, Number.POSITIVE_INFINITY)).toBeCloseTo(0.03, 9);
  const behind = hardPointFan({ shape: 'polygon', xy: edge.map((at, i) => (i % 2 === 0 ? -at : at)) });
  expect(hardGap(round(0.3), behind, 0.1, 0, Number.POSITIVE_INFINITY)).toBeCloseTo(0.03, 9);
});

test('at rest a hard point stands higher by the ride height that its tyre was given, and the axle further back', () => {
  const car = new Float64Array(CAR_INPUTS.length);
  const tyre = new Float64Array(TYRE_INPUTS.length);
  car[carColumn('axlePathSlope')] = 0.25;
  car[carColumn('bushingGive')] = 0.006;
  tyre[tyreColumn('rideHeightChange')] = 0.02;
  const fan = hardPointFan({ shape: 'circle', ahead: 0.3, above: 0.38, radius: 0.01 });
  const { gap, angle } = standingHardGap(round(0.44), fan, car, tyre);
  // By hand: from the hub the bar stands 0.30 + 0.25 · 0.02 ahead and 0.38 + 0.02 above, 0.503 away.
  expect(gap).toBeCloseTo(Math.hypot(0.305, 0.4) - 0.45, 7);
  expect(angle).toBeCloseTo(Math.atan2(0.305, 0.4), 6);
});
