import { carColumn, grownTyre, hotPressure, tyreColumn } from '@tubgap/core';
import type { CaseSetup } from '@tubgap/simulation';
import { leastSquares } from '@tubgap/statistics';
import type { LogReading } from '../readings.ts';

/** Hot pressure of a middling run, Pa. */
export function middlePressure(setup: CaseSetup, tyre: number): number {
  const { centralCar: car, centralTyre: own } = setup.tyres[tyre]!;
  const air = car[carColumn('airTemperature')]!;
  return hotPressure(
    own[tyreColumn('coldPressure')]!,
    air,
    air + own[tyreColumn('airHeating')]!,
    own[tyreColumn('volumeRatio')]!,
    car[carColumn('stationPressure')]!,
  );
}

/** What the logs of one tyre show by themselves, before any car is weighed. */
export interface LogFit {
  /** Scatter of the runs about their common curve, one standard deviation, m; undefined with fewer than two logs. */
  runScatter: number | undefined;
  /** Growth of the rolling radius from the slowest to the fastest speed of free rolling, m. */
  logAlone: { from: number; to: number; growth: number; sd: number } | undefined;
}

/** Curve of the rolling radius with the growth law's shape, by least squares on the freely rolling part of the logs. */
export function fitLogs(setup: CaseSetup, tyre: number, logs: readonly LogReading[]): LogFit {
  const rolling = logs.flatMap((log, run) =>
    log.bins.filter(({ phase }) => phase === 'rolling').map((bin) => ({ ...bin, run })),
  );
  if (rolling.length < 4) return { logAlone: undefined, runScatter: undefined };
  const speeds = rolling.map(({ speed }) => speed);
  const [from, to] = [Math.min(...speeds), Math.max(...speeds)];
  const pressure = middlePressure(setup, tyre);
  const own = setup.tyres[tyre]!;
  const shape = (speed: number): number =>
    grownTyre(own.centralTyre, own.setup, pressure, speed).growth -
    grownTyre(own.centralTyre, own.setup, pressure, from).growth;
  const whole = shape(to);
  const curve = (speed: number, p: Float64Array): number => p[0]! + (p[1]! * shape(speed)) / whole;
  const fit = leastSquares({
    curve,
    x: speeds,
    y: rolling.map(({ radius }) => radius),
    sd: rolling.map(({ sd }) => sd),
    start: [rolling[0]!.radius, 0.02],
  });
  const levels = logs.map((_, run) => {
    const mine = rolling.filter((bin) => bin.run === run);
    return mine.reduce((sum, bin) => sum + bin.radius - curve(bin.speed, fit.parameters), 0) / mine.length;
  });
  const mean = levels.reduce((sum, level) => sum + level, 0) / levels.length;
  const scatter = Math.sqrt(
    levels.reduce((sum, level) => sum + (level - mean) ** 2, 0) / Math.max(1, levels.length - 1),
  );
  return {
    logAlone: { from, to, growth: fit.parameters[1]!, sd: fit.sd[1]! },
    runScatter: levels.length > 1 ? scatter : undefined,
  };
}
