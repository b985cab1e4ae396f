import { loadedRadius, rollout, tyreColumn } from '@tubgap/core';
import { caseSetup } from '@tubgap/simulation';
import { kolmogorovTail, numberSource } from '@tubgap/statistics';
import { describe, expect, it } from 'vitest';
import {
  believe,
  evidenceParts,
  findConflicts,
  noReadings,
  type Part,
  priorPoints,
  type Readings,
  spaceOf,
} from '../src/index.ts';
import { demoCase } from './demo.ts';
import { DEMO_CAR, loggedReadings } from './synthetic.ts';

const source = demoCase();
const setup = caseSetup(source);
const slick = setup.tyres[0]!;
const PSI = 6894.757293168361;
const INCH = 0.0254;
const place = (file: string, line: number) => ({ file, line, date: '', tyre: 'tall-slick' });

/** Readings of the middle tyre of the case, in a row of pressures and loads, changed at one place if asked. */
function readings(change: Partial<Record<'rollout' | 'loaded', number>> = {}): Readings {
  const values = slick.centralTyre;
  const radius = values[tyreColumn('referenceRadius')]!;
  const slope = values[tyreColumn('radiusPerPressure')]!;
  return {
    ...noReadings(),
    rollouts: [4.5, 6, 7.5, 9].map((psi, k) => ({
      ...place('rollout.csv', k + 2),
      pressure: psi * PSI,
      rollout: rollout(radius + slope * (psi - 6) * PSI) + (k === 2 ? (change.rollout ?? 0) : 0),
      sd: 0.1 * INCH,
    })),
    loaded: [4500, 6000, 7500].map((load, k) => ({
      ...place('loaded-radius.csv', k + 2),
      pressure: 6 * PSI,
      load,
      radius: loadedRadius(values, slick.setup, 6 * PSI, load) + (change.loaded ?? 0),
      sd: 0.06 * INCH,
    })),
    masses: [{ ...place('tyre-mass.csv', 2), mass: values[tyreColumn('mass')]!, sd: 0.14 }],
  };
}

const conflictsOf = (own: Readings) => {
  const parts = evidenceParts(source, setup, own);
  return findConflicts(believe(setup, parts, { seed: 1, draws: 250, pilot: 100 }), 1);
};

describe('readings at odds', () => {
  it('are none where all come from one tyre', () => expect(conflictsOf(readings())).toEqual([]));

  it('one rollout among four that is an inch off is named, with its line', () => {
    const [worst] = conflictsOf(readings({ rollout: 1.2 * INCH }));
    expect(worst).toMatchObject({ refused: true });
    expect(worst!.reading).toMatch(/^rollout\.csv:4, /);
  });

  it('axle heights that fit neither the rollouts nor the assumptions are refused', () => {
    const found = conflictsOf(readings({ loaded: -0.9 * INCH }));
    expect(found.some(({ file, refused }) => file === 'loaded-radius.csv' && refused)).toBe(true);
  });

  it('a log read with another axle ratio is refused', () => {
    const { readings: logs } = loggedReadings(DEMO_CAR, {}, 3, undefined, (text) =>
      text.replace(/^([\d.]+,[\d.]+),(\d+)/gm, (_, before, rpm) => `${before},${Math.round(rpm * 0.92)}`),
    );
    const found = conflictsOf({ ...readings(), logs: logs.logs });
    expect(found.some(({ file, refused }) => /run-log/.test(file) && refused)).toBe(true);
  });
});

/**
 * Simulation-based calibration (Talts and others 2018, arXiv:1804.06788) over 200 cars of the case's priors: readings
 * come from the model with the errors that the likelihood believes in, so the car's place among the believed ones is
 * uniform. One look at ten numbers: a chance under 1 in 1,000 for the worst of them fails.
 */
describe('calibration over 200 cars of the priors', () => {
  const { readings: logs } = loggedReadings(DEMO_CAR, {}, 4, [{ brakesBelow: 40, powerFactor: 1 }]);
  const few = logs.logs.map((log) => ({ ...log, bins: log.bins.filter((_, k) => k % 3 === 0) }));
  const own = { ...readings(), logs: few };
  const parts = evidenceParts(source, setup, own);
  const space = spaceOf(setup, parts, 1);
  const cars = priorPoints(space, 77, 200);
  const streams = [
    'tyre/tall-slick/referenceRadius',
    'tyre/tall-slick/radiusPerPressure',
    'tyre/tall-slick/growthScale',
    'tyre/tall-slick/growthSpeedFactor',
    'tyre/tall-slick/stiffnessFactor',
    'tyre/tall-slick/mass',
  ];
  const coordinates = streams.map((stream) =>
    space.directions.findIndex((direction) => direction.stream === stream),
  );
  const places = streams.map((): number[] => []);
  /** Of the first reading of each part the chance of a lower one, as the true car gives it. */
  const chances = parts.map((): number[] => []);
  cars.forEach((car, n) => {
    const numbers = numberSource(n, 'readings');
    const seen = parts.map((part): Part => part.simulated!(space.at(car), numbers));
    seen.forEach((part, k) => {
      chances[k]!.push(part.lower(space.at(car))[0]!);
    });
    const { points } = believe(setup, seen, { seed: n, draws: 60, pilot: 40 });
    coordinates.forEach((d, k) => {
      const below = points.filter((point) => point[d]! < car[d]!).length;
      places[k]!.push((below + 0.5) / (points.length + 1));
    });
  });

  const expectEven = (values: readonly number[]): void => {
    const sorted = values.slice().sort((a, b) => a - b);
    expect(sorted).toHaveLength(200);
    let distance = 0;
    sorted.forEach((value, i) => {
      distance = Math.max(distance, Math.abs(value - i / 200), Math.abs(value - (i + 1) / 200));
    });
    expect(kolmogorovTail(Math.sqrt(200) * distance)).toBeGreaterThan(0.001);
  };

  it.each(streams.map((stream, k) => [stream, k] as const))('%s stands anywhere', (_, k) => {
    expectEven(places[k]!);
  });

  it.each(parts.map(({ kind }, k) => [kind, k] as const))(
    'readings of %s lie anywhere among what the car gives',
    (_, k) => {
      expectEven(chances[k]!);
    },
  );
});
