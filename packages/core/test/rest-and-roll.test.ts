import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  CAR_INPUTS,
  type CarInput,
  carColumn,
  clearanceState,
  clearsAtRest,
  coastingLoad,
  grownTyre,
  largestDrop,
  loadedRadius,
  MOMENTS,
  moistAirDensity,
  rollingDrop,
  smallestGap,
  standingOutline,
  tyreColumn,
} from '../src/index.ts';
import { between, carDraw, runDraw, tubDraw, tyreDraw } from './draws.ts';

test('a coasting tyre carries its weight, the downforce and what the drag lifts over, as worked by hand', () => {
  const car = new Float64Array(CAR_INPUTS.length);
  const given: Partial<Record<CarInput, number>> = {
    mass: 1202,
    rearShare: 0.5,
    wheelbase: 2.794,
    cgHeight: 0.508,
    dragArea: 0.55,
    dragHeight: 0.559,
    downforceArea: 1.257,
    chuteHeight: 0.7,
    airTemperature: 298.15,
    stationPressure: 99e3,
    humidity: 0.4,
  };
  for (const [name, value] of Object.entries(given)) car[carColumn(name as CarInput)] = value;
  // Derived: at ½ρv² = 7181.9 Pa the wing presses with 9027.7 N, and 3950.1 N of drag 0.051 m above the centre of
  // gravity move 72.1 N: (5893.8 + 9027.7 + 72.1)/2.
  const speed = Math.sqrt((2 * 7181.92) / moistAirDensity(298.15, 99e3, 0.4));
  expect(coastingLoad(car, speed)).toBeCloseTo(7496.8, 0);
  expect(coastingLoad(car, 0)).toBeCloseTo((1202 * 9.80665) / 4, 9);
});

test('a tell-tale shows the furthest drop of the moments in which the car moves, bumps in it', () => {
  fc.assert(
    fc.property(carDraw, tyreDraw, tubDraw, runDraw, (car, tyre, tub, run) => {
      const { values, setup } = tyre;
      const build = { tyre: values, tyreSetup: setup, pressure: setup.referencePressure };
      const drops = MOMENTS.filter((moment) => moment !== 'burnout')
        .map((moment) =>
          clearanceState({
            car,
            tyre: values,
            tyreSetup: setup,
            run,
            build,
            tub,
            topHeight: 1.1,
            reserve: 0,
            moment,
          }),
        )
        .filter((state) => state.happens)
        .map((state) => state.bodyDrop + state.bump);
      expect(Math.abs(largestDrop(car, values, run) - Math.max(...drops))).toBeLessThan(1e-12);
    }),
    { numRuns: 60 },
  );
});

test('a rolling tyre drops as a standing one that is as large as it has grown', () => {
  fc.assert(
    fc.property(tyreDraw, between(0, 110), between(2e3, 9e3), ({ setup, values }, speed, load) => {
      const pressure = setup.referencePressure;
      const { freeRadius, growth } = grownTyre(values, setup, pressure, speed);
      const larger = values.slice();
      larger[tyreColumn('referenceRadius')]! += growth;
      const standing = freeRadius + growth - loadedRadius(larger, setup, pressure, load);
      expect(Math.abs(rollingDrop(values, setup, pressure, speed, load) - standing)).toBeLessThan(1e-12);
    }),
    { numRuns: 60 },
  );
});

test('at the height that clears at rest the standing tyre just touches the tub', () => {
  let held = 0;
  fc.assert(
    fc.property(
      tyreDraw,
      tubDraw,
      between(3e3, 8e3),
      between(0.3, 0.45),
      ({ setup, values }, tub, load, axle) => {
        const pressure = setup.referencePressure;
        const height = clearsAtRest(values, setup, pressure, load, tub, axle);
        if (!(height < 3)) return;
        const outline = standingOutline(values, setup, pressure, load);
        const gapAt = (top: number): number =>
          smallestGap(outline, tub, { ahead: tub.centreForward, above: top - axle - tub.radius }).gap;
        expect(gapAt(height + 1e-6)).toBeGreaterThan(-1e-7);
        expect(gapAt(height - 1e-3)).toBeLessThan(0);
        held++;
      },
    ),
    { numRuns: 100 },
  );
  expect(held).toBeGreaterThan(60);
});
