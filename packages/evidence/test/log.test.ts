import { describe, expect, it } from 'vitest';
import { inventedRollingRadius } from '../../../datasets/demo-measurements/generator/invented-car.ts';
import { offsetShare } from '../src/parts/rolling.ts';
import { DEMO_CAR, loggedReadings } from './synthetic.ts';

const CLEAN = { speedScale: 1, speedDelay: 0, speedNoise: 0.05, shaftNoise: 0.0005, spikes: 0 };

describe('a run log', () => {
  it('rolling freely gives the rolling radius at every speed, but for the air’s slip', () => {
    const { readings, rejected } = loggedReadings(DEMO_CAR, CLEAN, 1);
    expect(rejected).toEqual([]);
    const rolling = readings.logs[0]!.bins.filter(({ phase }) => phase === 'rolling');
    expect(rolling.length).toBeGreaterThan(8);
    for (const { speed, radius } of rolling) {
      expect(Math.abs(radius / inventedRollingRadius(DEMO_CAR, speed) - 1)).toBeLessThan(0.004);
    }
  });

  it('driven shows less than that, by the slip', () => {
    const { readings } = loggedReadings(DEMO_CAR, CLEAN, 2);
    const driven = readings.logs[0]!.bins.filter(({ phase, speed }) => phase === 'driven' && speed > 80);
    for (const { speed, radius } of driven) {
      const slip = inventedRollingRadius(DEMO_CAR, speed) / radius - 1;
      expect(slip).toBeGreaterThan(0.01);
      expect(slip).toBeLessThan(0.12);
    }
  });

  it('spikes, drop-outs and wheelspin move nothing and are counted', () => {
    const clean = loggedReadings(DEMO_CAR, CLEAN, 3).readings.logs[0]!;
    const course = { brakesBelow: 40, powerFactor: 1, wheelspinAt: 220 };
    const dirty = loggedReadings(DEMO_CAR, { ...CLEAN, spikes: 0.02 }, 3, [course]).readings.logs[0]!;
    expect(dirty.passedOver).toBeGreaterThan(clean.passedOver + 15);
    const at = (log: typeof clean, speed: number) =>
      log.bins
        .filter(({ phase }) => phase === 'rolling')
        .reduce((best, bin) => (Math.abs(bin.speed - speed) < Math.abs(best.speed - speed) ? bin : best));
    for (const speed of [60, 75, 90]) {
      expect(Math.abs(at(dirty, speed).radius - at(clean, speed).radius)).toBeLessThan(0.0015);
    }
  });

  it('reads the same from semicolons with decimal commas, from tabs, and under a page of the logger’s own', () => {
    const plain = loggedReadings(DEMO_CAR, {}, 8).readings.logs[0]!;
    for (const change of [
      (text: string) => text.replaceAll(',', ';').replace(/(\d)\.(\d)/g, '$1,$2'),
      (text: string) => text.replaceAll(',', '\t'),
      (text: string) => `Logger 4\nSession,7\n\n${text}`,
    ]) {
      expect(loggedReadings(DEMO_CAR, {}, 8, undefined, change).readings.logs[0]!.bins).toEqual(plain.bins);
    }
  });

  it('ends where the brakes come on, without a column for them', () => {
    const { readings } = loggedReadings(DEMO_CAR, {}, 4, [{ brakesBelow: 55, powerFactor: 1 }]);
    const slowest = Math.min(
      ...readings.logs[0]!.bins.filter(({ phase }) => phase === 'rolling').map(({ speed }) => speed),
    );
    expect(slowest).toBeGreaterThan(54);
    expect(slowest).toBeLessThan(62);
  });

  it.each([
    ['km/h under a head that says mph', (v: number) => v * 1.609344, 1, /km\/h read as mph/],
    ['m/s under a head that says mph', (v: number) => v * 0.44704, 1, /m\/s read as mph/],
    ['the wheel’s own rpm', (v: number) => v, 1 / 4.29, /those of the wheel/],
  ])('%s are found out and said', (_, speed, shaft, words) => {
    const { readings, rejected } = loggedReadings(DEMO_CAR, {}, 5, undefined, (text) =>
      text
        .split('\n')
        .map((line) => {
          const cells = line.split(',');
          if (!/^\d/.test(line)) return line;
          return [cells[0], speed(Number(cells[1])), Number(cells[2]) * shaft, cells[3]].join(',');
        })
        .join('\n'),
    );
    expect(readings.logs).toEqual([]);
    expect(rejected[0]!.reason).toMatch(words);
  });

  it('bad lines are left out with their number, an unknown column is asked for', () => {
    const { readings, rejected } = loggedReadings(DEMO_CAR, {}, 6, undefined, (text) =>
      text.replace(/^3\.00,[^,]*/m, '3.00,—').replace(/^3\.10,/m, '2.00,'),
    );
    expect(readings.logs).toHaveLength(2);
    expect(rejected.map(({ reason }) => reason).join()).toMatch(
      /speed: "—" is no number.*time: 2 does not rise/,
    );
    const renamed = loggedReadings(DEMO_CAR, {}, 7, undefined, (text) => text.replace('Driveshaft', 'DS'));
    expect(renamed.rejected[0]!.reason).toMatch(/no column for the driveshaft/);
  });
});

/**
 * Share of the axle's drop by which the rolling radius is less than the free one, standing, from two published sets of
 * one passenger radial (205/60R15; PhysX CustomTireVehicle.cpp, commit 43426eb, and the equations of Pacejka 2012, ch. 4):
 * free radius 0.3126849 m; drop and rolling radius at 2, 4 and 6 kN, derived to twelve digits.
 */
const RADIAL = [
  [0.0104844089282, 0.305393158845],
  [0.0203128602817, 0.304119006523],
  [0.0295949508472, 0.303219723999],
  [0.0104855188689, 0.305385144419],
  [0.0203142641096, 0.304114000897],
  [0.0295960801803, 0.303218201374],
] as const;

it('the rolling offset’s prior holds what is published of a passenger radial', () => {
  expect(RADIAL).toHaveLength(6);
  for (const [drop, rolling] of RADIAL) {
    const share = (0.3126849 - rolling) / drop;
    expect(share).toBeGreaterThan(offsetShare(-2));
    expect(share).toBeLessThan(offsetShare(2));
  }
});
