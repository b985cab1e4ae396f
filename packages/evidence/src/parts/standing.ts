import { loadedRadius, rollout, type TyreInput, tyreColumn } from '@tubgap/core';
import { type CaseSetup, type RunTyre, tyreStream } from '@tubgap/simulation';
import { formatQuantity, INCH } from '@tubgap/units';
import type { LoadedReading, MassReading, RolloutReading } from '../readings.ts';
import { commonCovariance, normalPart, type Part } from './part.ts';

/** Errors that all readings of one kind share: the tape's path, the scale's zero, the block under the axle. Priors. */
const COMMON = { rollout: 0.06 * INCH, mass: 0.1, loaded: 0.03 * INCH };
/** What a shop's tape may read too much or too little, one standard deviation, m. */
export const TAPE_ERROR = COMMON.rollout;
/** Of the axle's drop, what the band model may be off. Prior: engineering judgement. */
const DROP_MODEL = 0.05;

const tyreIndex = (setup: CaseSetup, name: string): number =>
  setup.tyres.findIndex((tyre) => tyre.name === name);

const streamsOf = ({ tyreName }: RunTyre, inputs: readonly TyreInput[]): Set<string> =>
  new Set(inputs.map((input) => tyreStream(tyreName, input)));

const place = ({ file, line }: { file: string; line: number }): string => `${file}:${line}`;

/** Nuisance: what a shop's tape reads too much or too little, in standard deviations of what it may. */
export const TAPE = 'tape';

/**
 * Rollouts of one tyre: free radius at each pressure.
 * @param ofTheShop  whether the tape's own error is a nuisance, which cars of one shop may share; else it lies in the
 * covariance. In law the same for one car.
 */
export function rolloutPart(
  setup: CaseSetup,
  tyre: string,
  readings: readonly RolloutReading[],
  ofTheShop = false,
): Part {
  const i = tyreIndex(setup, tyre);
  const reference = setup.tyres[i]!.setup.referencePressure;
  const radius = tyreColumn('referenceRadius');
  const slope = tyreColumn('radiusPerPressure');
  return normalPart(
    {
      kind: 'rollout',
      file: readings[0]!.file,
      names: readings.map(
        (reading) =>
          `${place(reading)}, ${formatQuantity(reading.rollout, 'length')} at ${formatQuantity(reading.pressure, 'pressure')}`,
      ),
      streams: streamsOf(setup.tyres[i]!, ['referenceRadius', 'radiusPerPressure']),
      nuisances: ofTheShop ? [TAPE] : [],
      costly: false,
    },
    {
      values: readings.map((reading) => reading.rollout),
      covariance: commonCovariance(
        readings.map(({ sd }) => sd),
        ofTheShop ? 0 : COMMON.rollout,
      ),
      predicted: (car) => {
        const own = car.tyre[i]!;
        const off = ofTheShop ? COMMON.rollout * car.nuisance(TAPE) : 0;
        return readings.map(
          ({ pressure }) => rollout(own[radius]! + own[slope]! * (pressure - reference)) + off,
        );
      },
    },
  );
}

/** Weighings of one tyre. */
export function massPart(setup: CaseSetup, tyre: string, readings: readonly MassReading[]): Part {
  const i = tyreIndex(setup, tyre);
  const mass = tyreColumn('mass');
  return normalPart(
    {
      kind: 'tyre mass',
      file: readings[0]!.file,
      names: readings.map((reading) => `${place(reading)}, ${formatQuantity(reading.mass, 'mass')}`),
      streams: streamsOf(setup.tyres[i]!, ['mass']),
      nuisances: [],
      costly: false,
    },
    {
      values: readings.map((reading) => reading.mass),
      covariance: commonCovariance(
        readings.map(({ sd }) => sd),
        COMMON.mass,
      ),
      predicted: (car) => readings.map(() => car.tyre[i]![mass]!),
    },
  );
}

/** Axle heights of one tyre under loads at pressures. */
export function loadedPart(setup: CaseSetup, tyre: string, readings: readonly LoadedReading[]): Part {
  const i = tyreIndex(setup, tyre);
  const own = setup.tyres[i]!;
  const radiusOf = (values: Float64Array, { pressure, load }: LoadedReading): number =>
    loadedRadius(values, own.setup, pressure, load);
  const free = own.centralTyre[tyreColumn('referenceRadius')]!;
  const drops = readings.map((reading) => Math.max(0, free - radiusOf(own.centralTyre, reading)));
  const base = commonCovariance(
    readings.map(({ sd }) => sd),
    COMMON.loaded,
  );
  return normalPart(
    {
      kind: 'loaded radius',
      file: readings[0]!.file,
      names: readings.map(
        (reading) =>
          `${place(reading)}, ${formatQuantity(reading.radius, 'length')} under ${formatQuantity(reading.load, 'force')} at ${formatQuantity(reading.pressure, 'pressure')}`,
      ),
      streams: streamsOf(own, [
        'referenceRadius',
        'radiusPerPressure',
        'patchCarcassPressure',
        'sectionWidth',
        'treadWidth',
        'stiffnessFactor',
        'tangentialRatio',
      ]),
      nuisances: [],
      costly: false,
    },
    {
      values: readings.map(({ radius }) => radius),
      covariance: base.map((row, a) =>
        row.map((value, b) => value + DROP_MODEL * DROP_MODEL * drops[a]! * drops[b]!),
      ),
      predicted: (car) => readings.map((reading) => radiusOf(car.tyre[i]!, reading)),
    },
  );
}
