import { expect, test } from 'vitest';
import outside from '../../../test/outside/one-run/one-run.json' with { type: 'json' };
import {
  buildLoad,
  CAR_INPUTS,
  type CarInput,
  MOMENTS,
  radialStiffnessFromDrop,
  staticLoadedRadius,
  TYRE_INPUTS,
  type TyreInput,
  type TyreSetup,
} from '../src/index.ts';
import { kernelRun } from './kernel-run.ts';
import { checkedState } from './state-laws.ts';

const car = Float64Array.from(CAR_INPUTS, (name) => (outside.car as Record<CarInput, number>)[name]);
const tub = { ...outside.tub, halfExtent: Math.PI / 2, legLength: 0 };
const run = { distance: outside.distance, finishAccelerationIs: 'absolute', gripLostChance: 0.05 } as const;
const tyres = outside.tyres.map((tyre) => {
  const [pressure, load, drop] = tyre.measured as [number, number, number];
  const value = tyre.values as Record<TyreInput, number>;
  const setup: TyreSetup = {
    construction: tyre.construction as TyreSetup['construction'],
    referencePressure: pressure,
    radialStiffness: radialStiffnessFromDrop({
      pressure,
      load,
      drop,
      freeRadius: value.referenceRadius,
      sectionWidth: value.sectionWidth,
      treadWidth: value.treadWidth,
      carcassPressure: value.patchCarcassPressure,
      tangentialRatio: value.tangentialRatio,
    }),
  };
  return { ...tyre, setup, values: Float64Array.from(TYRE_INPUTS, (name) => value[name]) };
});
const build = { tyre: tyres[0]!.values, tyreSetup: tyres[0]!.setup, pressure: outside.buildPressure };

const near = (found: number, expected: number, relative: number): boolean =>
  Math.abs(found - expected) <= relative * Math.max(Math.abs(expected), 1e-3);

test('the sidewall from a measured drop and the build stance agree with a program made elsewhere', () => {
  expect(tyres.length).toBe(2);
  for (const tyre of tyres) expect(near(tyre.setup.radialStiffness, tyre.radialStiffness, 1e-6)).toBe(true);
  expect(near(buildLoad(car), outside.buildLoad, 1e-13)).toBe(true);
  const found = staticLoadedRadius(car, build.tyre, build.tyreSetup, build.pressure);
  expect(Math.abs(found - outside.staticLoadedRadius)).toBeLessThan(1e-8);
});

test('every moment of a run, with the build tyre and with another, agrees with a program made elsewhere', () => {
  let rows = 0;
  for (const tyre of tyres) {
    for (const moment of MOMENTS) {
      const state = checkedState({
        car,
        tyre: tyre.values,
        tyreSetup: tyre.setup,
        run,
        build: { ...build, axleHeight: outside.staticLoadedRadius },
        tub,
        topHeight: outside.topHeight,
        reserve: outside.reserve,
        moment,
      });
      const found = new Map<string, unknown>(Object.entries(state));
      found.set('drop', state.bodyDrop + state.bump);
      // Relative; lengths at least to 1e-9 of a metre. An angle is as sharp as the peak is round.
      for (const [name, value] of Object.entries(tyre.moments[moment])) {
        rows++;
        const tolerance = name.endsWith('Angle') ? 2e-5 : 2e-8;
        expect(
          near(found.get(name) as number, value, tolerance),
          `${moment} ${name}: ${found.get(name)}, ${value}`,
        ).toBe(true);
      }
    }
  }

  expect(rows).toBe(2 * 8 * 17);
});

test('the kernel takes the highest of the moments, and the right one', () => {
  for (const tyre of tyres) {
    const heights = MOMENTS.map((moment) => tyre.moments[moment].requiredHeight);
    const highest = Math.max(...heights);
    const setup = {
      ...run,
      tubs: [tub],
      hardPoints: [],
      reserve: outside.reserve,
      growthFactor: 1,
    };
    const table = kernelRun(setup, tyre.setup, car, tyre.values, outside.staticLoadedRadius);
    expect(near(table.requiredHeight[0]!, highest, 2e-8)).toBe(true);
    expect(table.tightMoment[0]).toBe(heights.indexOf(highest));
  }
});
