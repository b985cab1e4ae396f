import { CAR_INPUTS, TYRE_INPUTS } from '@tubgap/core';
import { type QuantityKind, UNITS } from '@tubgap/units';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Case } from '../src/case.ts';
import { sound } from './small-case.ts';

/** Writes a value given in SI in one of the kind's units, with all the digits of a double. */
type Writer = (si: number, kind: QuantityKind) => string;

const writer =
  (choose: (kind: QuantityKind) => number): Writer =>
  (si, kind) => {
    const units = UNITS[kind];
    const { name, factor, offset } = units[choose(kind) % units.length]!;
    return `${(si - offset) / factor} ${name}`;
  };

/** The same car each time, whatever it is written in. `part` moves it through the ranges, 0 to 1. */
function written(write: Writer, part: number) {
  const between = (low: number, high: number, kind: QuantityKind) => write(low + part * (high - low), kind);
  return {
    name: 'unit-free',
    catalogues: { tubs: 'tubs.csv', tyres: 'tyres.csv' },
    car: {
      mass: { law: 'normal', mean: between(900, 1400, 'mass'), sd: write(7, 'mass'), each: 'car' },
      rearShare: between(0.45, 0.55, 'ratio'),
      wheelbase: between(2.5, 2.9, 'length'),
    },
    aero: { downforceArea: { law: 'log-normal', median: between(0.5, 1.5, 'area'), cov: 0.08, each: 'car' } },
    suspension: { wheelRate: between(2e4, 5e4, 'stiffness'), bumpTravel: between(0.03, 0.07, 'length') },
    build: { tyre: 'slick', pressure: between(3e4, 6e4, 'pressure'), reserve: between(0, 0.02, 'length') },
    run: {
      distance: write(402.336, 'length'),
      trapSpeed: { law: 'uniform', low: between(70, 90, 'speed'), high: write(100, 'speed'), each: 'run' },
      launchAcceleration: between(10, 40, 'acceleration'),
    },
    weather: {
      airTemperature: {
        law: 'normal',
        mean: between(280, 310, 'temperature'),
        sd: write(4, 'temperature difference'),
        each: 'run',
      },
      stationPressure: between(9e4, 1.02e5, 'pressure'),
    },
    tyres: [
      {
        tyre: 'slick',
        runsPerSeason: 30,
        radiusPerPressure: between(1e-8, 9e-8, 'length per pressure'),
        lobeAngle: between(0.5, 0.9, 'angle'),
        airHeating: between(5, 30, 'temperature difference'),
        deflectionLoad: between(4000, 7000, 'force'),
      },
    ],
    tubs: ['wide'],
    accept: { runRisk: 0.001, seasonRisk: 0.05 },
  };
}

/** Every number of a case that came from the file, by name. */
function numbersOf(the: Case): [string, number][] {
  const tyre = the.tyres[0]!;
  const laws = [
    ...CAR_INPUTS.map((name) => the.car[name]),
    ...TYRE_INPUTS.map((name) => tyre.inputs[name]),
  ].flatMap(({ path, law }) =>
    Object.entries(law).flatMap(([field, value]) =>
      typeof value === 'number' ? [[`${path}.${field}`, value] as [string, number]] : [],
    ),
  );
  const exact = { ...the.build, distance: the.distance, load: tyre.deflectionLoad };
  const rest = Object.entries(exact).filter(
    (entry): entry is [string, number] => typeof entry[1] === 'number',
  );
  return [...laws, ...rest];
}

test('a case means the same in any units', () => {
  const inches = writer(() => 0);
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 1, noNaN: true }),
      fc.integer({ min: 0, max: 1e6 }),
      (part, choice) => {
        const kinds = Object.keys(UNITS) as QuantityKind[];
        const mixed = writer((kind) => Math.floor(choice / (kinds.indexOf(kind) + 1)));
        const expected = numbersOf(sound(written(inches, part)));
        const found = new Map(numbersOf(sound(written(mixed, part))));
        expect(found.size).toBe(expected.length);
        for (const [name, value] of expected) {
          const difference = Math.abs(found.get(name)! - value);
          if (value !== found.get(name))
            expect(difference, name).toBeLessThanOrEqual(1e-12 * Math.abs(value) + 1e-15);
        }
      },
    ),
    { numRuns: 25 },
  );
});
