import {
  type CarInput,
  carColumn,
  coastingLoad,
  grownTyre,
  hotPressure,
  rollingDrop,
  type TyreInput,
  tyreColumn,
} from '@tubgap/core';
import { type CaseSetup, carStream, tyreStream } from '@tubgap/simulation';
import { centralValue, choleskyFactor, normalCumulative, solveLower, variance } from '@tubgap/statistics';
import type { CarState } from '../car-space.ts';
import { fitLogs } from '../log/log-fit.ts';
import type { LogBin, LogReading } from '../readings.ts';
import { normalPart, type Part } from './part.ts';

/**
 * What stands between car speed over wheel speed and the model's rolling radius. All are priors: engineering judgement,
 * one standard deviation.
 */
const ERRORS = {
  /** Of the speed, for all runs of a car: a front wheel's own radius, a receiver's calibration. */
  speedScale: 0.003,
  /** By which one signal is later than the other, s, a run. */
  late: 0.03,
  /** From run to run, m, at least: rubber laid on, wear, the line driven. */
  run: 0.0005,
  /** Slip of the freely rolling tread, a run. */
  rollingSlip: 0.002,
  /** By which the tread slips while driven: about this, and no better known; alike within some 30 m/s. */
  drivenSlip: 0.05,
  drivenSlipSd: 0.025,
  drivenAlike: 30,
  /** Of the growth, by which a true curve may wave about the law's; alike within some 25 m/s. */
  law: 0.04,
  lawAlike: 25,
  /** Of a measured hot pressure, Pa. */
  gauge: 1500,
} as const;

/**
 * Effective rolling radius = grown radius less this share of the axle's drop. A third for a tread that shortens in the
 * patch as a bias tyre's does, near nothing for a belt that cannot; common practice, no source, wide on purpose.
 */
const OFFSET = { middle: 0.4, sd: 0.15 } as const;

export const OFFSET_OF = 'rolling offset of ';
export const PRESSURE_OF = 'pressure of ';
export const offsetName = (tyre: string): string => `${OFFSET_OF}${tyre}`;
const pressureName = ({ file }: LogReading): string => `${PRESSURE_OF}${file}`;

/** Share of the axle's drop by which the rolling radius is less than the grown one. */
export const offsetShare = (z: number): number => Math.max(0.02, OFFSET.middle + OFFSET.sd * z);

/** Hot pressure of a run, middle and standard deviation, Pa: logged, or as the case has it. */
function runPressure(
  setup: CaseSetup,
  tyre: number,
  { pressure }: LogReading,
): { middle: number; sd: number } {
  if (pressure !== undefined) return { middle: pressure, sd: ERRORS.gauge };
  const own = setup.tyres[tyre]!;
  const law = (name: TyreInput) => own.tyre[tyreColumn(name)]!.law;
  const hot = (cold: number, heating: number): number => {
    const air = own.centralCar[carColumn('airTemperature')]!;
    const station = own.centralCar[carColumn('stationPressure')]!;
    return hotPressure(cold, air, air + heating, centralValue(law('volumeRatio')), station);
  };
  const cold = centralValue(law('coldPressure'));
  const heating = centralValue(law('airHeating'));
  const sdOf = (name: TyreInput): number => Math.sqrt(Math.min(variance(law(name)), 1e12));
  const middle = hot(cold, heating);
  const byCold = hot(cold + sdOf('coldPressure'), heating) - middle;
  const byHeat = hot(cold, heating + sdOf('airHeating')) - middle;
  return { middle, sd: Math.hypot(byCold, byHeat) };
}

/** Radius of a bin with the slip that is expected taken off. */
export const slipFreeRadius = ({ phase, radius }: LogBin): number =>
  phase === 'driven' ? radius * (1 + ERRORS.drivenSlip) : radius;

/** What the bins' errors have in common. @param growth  of each bin as the middle car has it, m */
function binCovariance(
  bins: readonly (LogBin & { run: number })[],
  growth: readonly number[],
  runScatter: number,
): number[][] {
  const alike = (a: number, b: number, within: number): number => Math.exp(-(((a - b) / within) ** 2));
  return bins.map((a, i) =>
    bins.map((b, j) => {
      let sum = ERRORS.speedScale ** 2 * a.radius * b.radius;
      sum += ERRORS.law ** 2 * growth[i]! * growth[j]! * alike(a.speed, b.speed, ERRORS.lawAlike);
      if (a.run === b.run) {
        sum += runScatter ** 2 + ERRORS.late ** 2 * a.perSecondLate * b.perSecondLate;
        if (a.phase === 'rolling' && b.phase === 'rolling') {
          sum += ERRORS.rollingSlip ** 2 * a.radius * b.radius;
        }
        if (a.phase === 'driven' && b.phase === 'driven') {
          sum += ERRORS.drivenSlipSd ** 2 * a.radius * b.radius * alike(a.speed, b.speed, ERRORS.drivenAlike);
        }
      }
      if (i === j) sum += a.sd * a.sd + 1e-9;
      return sum;
    }),
  );
}

const CAR_USED: readonly CarInput[] = [
  'mass',
  'rearShare',
  'wheelbase',
  'cgHeight',
  'dragArea',
  'dragHeight',
  'downforceArea',
  'chuteHeight',
];
const TYRE_USED: readonly TyreInput[] = [
  'referenceRadius',
  'radiusPerPressure',
  'growthScale',
  'growthSpeedFactor',
  'growthCarcassPressure',
  'patchCarcassPressure',
  'mass',
  'sectionWidth',
  'treadWidth',
  'stiffnessFactor',
  'tangentialRatio',
  'volumeRatio',
];

/** Speeds, from standing to the fastest, at which the drop is worked out. */
const DROP_SPEEDS = 10;

/** All run logs of one tyre together: they share the speed's scale and the growth law's own error. */
export function rollingPart(setup: CaseSetup, tyre: string, logs: readonly LogReading[]): Part {
  const i = setup.tyres.findIndex((other) => other.name === tyre);
  const own = setup.tyres[i]!;
  const bins = logs.flatMap((log, run) => log.bins.map((bin) => ({ ...bin, run })));
  const pressures = logs.map((log) => runPressure(setup, i, log));
  const offset = offsetName(tyre);
  const names = logs.map(pressureName);
  const model = new Float64Array(bins.length);
  const fastest = Math.max(...bins.map(({ speed }) => speed));
  const drops = new Float64Array(DROP_SPEEDS + 1);
  const pressureOf = (car: CarState, run: number): number => {
    const { middle, sd } = pressures[run]!;
    return Math.max(0.3 * middle, middle + sd * car.nuisance(names[run]!));
  };
  const predicted = (car: CarState): Float64Array => {
    const share = offsetShare(car.nuisance(offset));
    const values = car.tyre[i]!;
    // The drop hardly changes from run to run and is smooth in speed: a few places of it are enough.
    const usual = pressureOf(car, 0);
    drops.forEach((_, k) => {
      const speed = (k * fastest) / DROP_SPEEDS;
      drops[k] = rollingDrop(values, own.setup, usual, speed, coastingLoad(car.car[i]!, speed));
    });
    bins.forEach(({ speed, run }, b) => {
      const { freeRadius, growth } = grownTyre(values, own.setup, pressureOf(car, run), speed);
      const at = Math.min(DROP_SPEEDS - 1e-9, (speed / fastest) * DROP_SPEEDS);
      const k = Math.floor(at);
      model[b] = freeRadius + growth - share * (drops[k]! + (at - k) * (drops[k + 1]! - drops[k]!));
    });
    return model;
  };
  const growth = bins.map(
    ({ speed, run }) => grownTyre(own.centralTyre, own.setup, pressures[run]!.middle, speed).growth,
  );
  // With three runs and more they say themselves how much they differ.
  const { runScatter = 0 } = logs.length > 2 ? fitLogs(setup, i, logs) : {};
  const covariance = binCovariance(bins, growth, Math.max(ERRORS.run, runScatter));
  const values = bins.map(slipFreeRadius);
  const tests = logs.map((_, run) => runTest(bins, covariance, run));
  return normalPart(
    {
      kind: 'run log',
      file: logs.map(({ file }) => file).join(', '),
      names: logs.map(({ file }) => file),
      streams: new Set([
        ...CAR_USED.map(carStream),
        ...TYRE_USED.map((name) => tyreStream(own.tyreName, name)),
      ]),
      nuisances: [offset, ...names],
      costly: false,
    },
    { values, covariance, predicted, lower: (rest) => tests.map((test) => test(rest)) },
  );
}

/** The best single number of a run, its level as the errors allow to tell it, as a chance of a lower one. */
function runTest(
  bins: readonly { run: number }[],
  covariance: readonly (readonly number[])[],
  run: number,
): (rest: Float64Array) => number {
  const chosen = bins.flatMap((bin, b) => (bin.run === run ? [b] : []));
  const factor = choleskyFactor(chosen.map((a) => chosen.map((b) => covariance[a]![b]!)));
  const ones = solveLower(factor, new Float64Array(chosen.length).fill(1), new Float64Array(chosen.length));
  const information = Math.sqrt(ones.reduce((sum, x) => sum + x * x, 0));
  return (rest) => {
    const own = Float64Array.from(chosen, (b) => rest[b]!);
    const whitened = solveLower(factor, own, own);
    const level = whitened.reduce((sum, x, k) => sum + x * ones[k]!, 0) / information;
    return normalCumulative(level);
  };
}
