import {
  CAR_INPUTS,
  createMomentTable,
  createRunTable,
  evaluateRuns,
  fillMomentTable,
  TYRE_INPUTS,
} from '@tubgap/core';
import { axleHeightsOf, caseSetup, clearanceOf, createColumns, fillColumns } from '@tubgap/simulation';
import { BLOCK } from '@tubgap/statistics';
import { describe, expect, it } from 'vitest';
import { inventedRun } from '../../../datasets/demo-measurements/generator/invented-car.ts';
import { DEMO_FAULTS, loggedRun } from '../../../datasets/demo-measurements/generator/logger.ts';
import {
  believe,
  evidenceParts,
  noReadings,
  priorPoints,
  type Readings,
  readLog,
  spaceOf,
} from '../src/index.ts';
import { demoCase } from './demo.ts';
import { DEMO_CAR, LOGGER } from './synthetic.ts';

const source = demoCase();
const setup = caseSetup(source);
const INCH = 0.0254;
const DEGREE = Math.PI / 180;
const TUB = source.tubs.findIndex(({ name }) => name === 'street-42');

const mark = (angle: number, touched: boolean, thickness: number, runs: number, top = 39.3125) => ({
  file: 'marks.csv',
  line: 2,
  date: '',
  tyre: 'tall-slick',
  angle: angle * DEGREE,
  touched,
  thickness: thickness * INCH,
  runs,
  built: { tub: 'street-42', topHeight: top * INCH, centreForward: undefined },
});

const partsOf = (own: Partial<Readings>) => evidenceParts(source, setup, { ...noReadings(), ...own });

/** Middle and spread of an input of the car or the slick over believed cars, in standard deviations of its prior. */
function learnedOf(own: Partial<Readings>, stream: string): { mean: number; sd: number } {
  const { space, points } = believe(setup, partsOf(own), { seed: 1, draws: 150, pilot: 80 });
  const d = space.directions.findIndex((direction) => direction.stream === stream);
  const values = points.map((point) => point[d]!);
  const mean = values.reduce((sum, x) => sum + x, 0) / values.length;
  return { mean, sd: Math.sqrt(values.reduce((sum, x) => sum + (x - mean) ** 2, 0) / values.length) };
}

describe('marks', () => {
  it('have the chance of a plain count of runs of that car', () => {
    // All angles at once are what the kernel answers; so the tub is taken so low that the top is where it touches, and
    // the witness so thick that a good part of the runs does. The mark's blur and the 48 common runs allow 0.12.
    const own = [-10, 0, 10, 20, 30, 40].map((angle) => mark(angle, false, 1.5, 1, 38.2));
    const space = spaceOf(setup, partsOf({ marks: own }), 1);
    const columns = createColumns(setup.tyres);
    const clearance = {
      ...clearanceOf(setup, 0),
      tubs: [setup.clearance.tubs[TUB]!],
      hardPoints: [],
      reserve: 1.5 * INCH,
    };
    const table = createRunTable(clearance, BLOCK);
    const moments = createMomentTable(BLOCK);
    const axles = new Float64Array(BLOCK);
    let least = 1;
    let most = 0;
    for (const point of priorPoints(space, 5, 8)) {
      const single = own.map((one) => partsOf({ marks: [one] })[0]!);
      const chances = single.map((part) => 1 - Math.exp(part.logLikelihood(space.at(point))));
      const state = space.at(point);
      fillColumns(setup.tyres, 99, 'count/', 0, [BLOCK, BLOCK], 'run', columns);
      setup.tyres.forEach((tyre, i) => {
        CAR_INPUTS.forEach((_, c) => {
          if (tyre.car[c]!.each === 'car') columns[i]!.car[c]!.fill(state.car[i]![c]!);
        });
        TYRE_INPUTS.forEach((_, c) => {
          if (tyre.tyre[c]!.each === 'car') columns[i]!.tyre[c]!.fill(state.tyre[i]![c]!);
        });
      });
      axleHeightsOf(setup, columns, BLOCK, axles);
      fillMomentTable(clearance, columns[0]!.car, BLOCK, moments);
      evaluateRuns(
        clearance,
        setup.tyres[0]!.setup,
        columns[0]!.car,
        columns[0]!.tyre,
        moments,
        axles,
        BLOCK,
        table,
      );
      const counted = table.requiredHeight.filter((height) => height > 38.2 * INCH).length / BLOCK;
      expect(Math.abs(Math.max(...chances) - counted)).toBeLessThan(0.12);
      least = Math.min(least, counted);
      most = Math.max(most, counted);
    }
    expect(most - least).toBeGreaterThan(0.3);
  });

  it('that are not there say that the tyre grows less, those that are that it grows more', () => {
    const growth = 'tyre/tall-slick/growthScale';
    const clean = learnedOf({ marks: [mark(0, false, 2, 10), mark(20, false, 2, 10)] }, growth);
    const touched = learnedOf({ marks: [mark(15, true, 1.5, 1), mark(0, true, 1.5, 1)] }, growth);
    expect(clean.mean).toBeLessThan(-0.25);
    expect(touched.mean).toBeGreaterThan(0.5);
    expect(clean.sd).toBeLessThan(0.95);
  });

  it('of many clean runs say more than those of one', () => {
    const growth = 'tyre/tall-slick/growthScale';
    const one = learnedOf({ marks: [mark(15, false, 2, 1)] }, growth);
    const many = learnedOf({ marks: [mark(15, false, 2, 50)] }, growth);
    expect(many.mean).toBeLessThan(one.mean - 0.1);
  });
});

it('a tell-tale that went far says that the travel to the stop is long, and the other way about', () => {
  const travel = 'car/bumpTravel';
  const tale = (inches: number) => [
    {
      file: 'travel.csv',
      line: 2,
      date: '',
      tyre: 'tall-slick',
      travel: inches * INCH,
      runs: 1,
      sd: 0.1 * INCH,
    },
  ];
  const far = learnedOf({ tellTales: tale(2.5) }, travel);
  const near = learnedOf({ tellTales: tale(1.7) }, travel);
  expect(far.mean).toBeGreaterThan(0.3);
  expect(near.mean).toBeLessThan(-0.5);
});

it('gaps of the check sheet say where the tub really stands', () => {
  const central = caseSetup(source);
  const part = partsOf({
    gaps: [-15, 0, 15, 30].map((angle, k) => ({
      file: 'check-sheet.csv',
      line: k + 2,
      date: '',
      side: 'left',
      angle: angle * DEGREE,
      gap: 0.15,
      sd: 0.05 * INCH,
      built: { tub: 'street-42', topHeight: 39.3125 * INCH, centreForward: undefined },
    })),
  })[0]!;
  const space = spaceOf(central, [part], 1);
  const chances = (stream: string, z: number): number[] => {
    const point = new Float64Array(space.dimension);
    point[space.directions.findIndex((direction) => direction.stream === stream)] = z;
    return part.lower(space.at(point));
  };
  const [behind, straightUp, ahead] = [0, 1, 3];
  // The higher the tub stands above where it was meant to be, the lower this reading is among those to expect.
  const higher = [-2, 0, 2].map((z) => chances('car/topHeightError', z)[straightUp]!);
  expect(higher.toSorted((a, b) => b - a)).toEqual(higher);
  expect(new Set(higher).size).toBe(3);
  // Further ahead than meant it leaves more gap ahead of the top and less behind it.
  const further = [-2, 0, 2].map((z) => chances('car/centreError', z));
  const of = (k: number): number[] => further.map((all) => all[k]!);
  expect(of(ahead).toSorted((a, b) => b - a)).toEqual(of(ahead));
  expect(of(behind).toSorted((a, b) => a - b)).toEqual(of(behind));
  expect(new Set(of(ahead)).size * new Set(of(behind)).size).toBe(9);
});

it('a column for the travel in a run log counts as a tell-tale, from where the car stood', () => {
  const course = { brakesBelow: 40, powerFactor: 1 };
  const text = loggedRun(DEMO_CAR, inventedRun(DEMO_CAR, course), DEMO_FAULTS, 1)
    .split('\n')
    .map((line) => {
      if (line.startsWith('Time')) return `${line},Shock [in]`;
      if (!/^\d/.test(line)) return line;
      const time = Number(line.split(',')[0]);
      return `${line},${(0.4 + (time > 1 ? Math.min(1.5, (time - 1) * 0.3) : 0)).toFixed(3)}`;
    })
    .join('\n');
  const readings = noReadings();
  const log = { ...LOGGER, travelRatio: 1.2, columns: { ...LOGGER.columns, travel: { head: 'Shock [in]' } } };
  expect(readLog('run-log.csv', text, log, 0.442, readings)).toEqual([]);
  expect(readings.tellTales).toHaveLength(1);
  expect(readings.tellTales[0]!.travel / INCH).toBeCloseTo(1.5 * 1.2, 2);
});
