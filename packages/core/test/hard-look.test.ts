import fc from 'fast-check';
import { expect, test } from 'vitest';
import { fillHardGaps, type HardGapTable, hardPointFan, MOMENTS } from '../src/index.ts';
import { hardPointGap } from '../src/tub/hardpoint.ts';
import { carDraw, runDraw, tyreDraw } from './draws.ts';
import { kernelRun } from './kernel-run.ts';

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
