import { coastingLoad, grownTyre, rollingDrop } from '@tubgap/core';
import type { CaseSetup } from '@tubgap/simulation';
import { sampleQuantile } from '@tubgap/statistics';
import type { CarSpace } from './car-space.ts';
import { fitLogs, middlePressure } from './log/log-fit.ts';
import { offsetName, offsetShare, slipFreeRadius } from './parts/rolling.ts';
import { type Believed, spaceOf } from './posterior.ts';
import type { LogReading } from './readings.ts';
import { thinned } from './thinned.ts';
import { wholeCars } from './whole-car.ts';

/** Nine in ten cars lie between low and high; m. */
export interface Band {
  low: number[];
  middle: number[];
  high: number[];
}

/** A speed of a log as growth: radius without slip, less the free radius, plus the rolling offset. */
export interface GrowthPoint {
  file: string;
  phase: 'rolling' | 'driven';
  speed: number;
  growth: number;
  /** One standard error, m. */
  sd: number;
}

/** Growth of one tyre by speed before and after learning, at the hot pressure of a middling run. */
export interface GrowthCurve {
  tyre: string;
  /** m/s */
  speeds: number[];
  before: Band;
  after: Band;
  points: GrowthPoint[];
  /** Scatter of the runs about their common curve, one standard deviation, m; undefined with fewer than two logs. */
  runScatter: number | undefined;
  /** Growth from the slowest to the fastest rolling speed by least squares on the logs alone, m. */
  logAlone: { from: number; to: number; growth: number; sd: number } | undefined;
}

const CARS = 600;
const SPEEDS = 48;

const bandOf = (columns: readonly Float64Array[]): Band => {
  const at = (q: number): number[] => columns.map((column) => sampleQuantile(column, q));
  for (const column of columns) column.sort();
  return { low: at(0.05), middle: at(0.5), high: at(0.95) };
};

/** Growth of one tyre before and after, with the logs' points. @param topSpeed  up to which it is shown, m/s */
export function growthCurve(
  setup: CaseSetup,
  believed: Believed,
  whole: CarSpace,
  tyre: number,
  logs: readonly LogReading[],
  topSpeed: number,
  seed: number,
): GrowthCurve {
  const { space, points } = believed;
  const own = setup.tyres[tyre]!;
  const pressure = middlePressure(setup, tyre);
  const speeds = Array.from({ length: SPEEDS + 1 }, (_, k) => (k * topSpeed) / SPEEDS);
  const bandFor = (from: CarSpace, some: readonly Float64Array[]): Band => {
    const columns = speeds.map(() => new Float64Array(CARS));
    wholeCars(whole, from, some, seed, CARS).forEach((car, n) => {
      const values = whole.at(car).tyre[tyre]!;
      speeds.forEach((speed, k) => {
        columns[k]![n] = grownTyre(values, own.setup, pressure, speed).growth;
      });
    });
    return bandOf(columns);
  };
  const cars = thinned(points, CARS);
  const offset = offsetName(own.name);
  const known = space.nuisances.includes(offset);
  const shown = logs.flatMap((log) => log.bins.map((bin) => ({ ...bin, file: log.file })));
  const growthOf = shown.map(() => new Float64Array(known ? cars.length : 0));
  if (known) {
    cars.forEach((car, n) => {
      const state = space.at(car);
      const values = state.tyre[tyre]!;
      shown.forEach((bin, b) => {
        const load = coastingLoad(state.car[tyre]!, bin.speed);
        const { freeRadius } = grownTyre(values, own.setup, pressure, bin.speed);
        const drop = rollingDrop(values, own.setup, pressure, bin.speed, load);
        growthOf[b]![n] = slipFreeRadius(bin) - freeRadius + offsetShare(state.nuisance(offset)) * drop;
      });
    });
  }
  return {
    tyre: own.name,
    speeds,
    before: bandFor(spaceOf(setup, [], seed), [new Float64Array(0)]),
    after: bandFor(space, points),
    points: known
      ? shown.map(({ file, phase, speed, sd }, b) => {
          const sorted = growthOf[b]!.sort();
          const spread = (sampleQuantile(sorted, 0.84) - sampleQuantile(sorted, 0.16)) / 2;
          return { file, phase, speed, growth: sampleQuantile(sorted, 0.5), sd: Math.hypot(sd, spread) };
        })
      : [],
    ...fitLogs(setup, tyre, logs),
  };
}
