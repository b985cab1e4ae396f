import { choleskyFactor, type NumberSource, normalCumulative, solveLower } from '@tubgap/statistics';
import type { CarState } from '../car-space.ts';
import type { MarkReading } from '../readings.ts';

/** Kinds of evidence, in the words of what is printed. */
export type EvidenceKind =
  | 'rollout'
  | 'tyre mass'
  | 'loaded radius'
  | 'travel'
  | 'gaps at rest'
  | 'run log'
  | 'marks'
  | 'runs';

/** Readings of one kind from one file, and what they say of a car. */
export interface Part {
  kind: EvidenceKind;
  file: string;
  /** Names of the readings, for whoever looks them up: 'rollout.csv:4, 105.8 in at 6 psi'. */
  names: readonly string[];
  /** The readings themselves in that order, where they are marks. */
  marks?: readonly MarkReading[];
  /** Streams of the inputs it speaks of. */
  streams: ReadonlySet<string>;
  nuisances: readonly string[];
  /** Costly ones are asked last. */
  costly: boolean;
  /** Log of the chance of these readings, but for a constant; at most `most`. */
  logLikelihood: (car: CarState) => number;
  most: number;
  /** For each name the chance that a reading would be lower than this one, were this the car; 0 to 1. */
  lower: (car: CarState) => number[];
  /** Where its readings are events, which a forecast may speak of: whether each happened, and its chance for a car. */
  events?: { happened: readonly boolean[]; chances: (car: CarState) => number[] };
  /** The same part with readings as this car would give them: to hold the learning against itself. */
  simulated?: (car: CarState, numbers: NumberSource) => Part;
}

/** Readings whose errors are normal, alone or together. */
export interface NormalReadings {
  values: readonly number[];
  covariance: readonly (readonly number[])[];
  predicted: (car: CarState) => ArrayLike<number>;
  /** Chances of lower readings from what they are above the car's, for each name; reading by reading when left out. */
  lower?: (residuals: Float64Array) => number[];
}

const readingByReading =
  (covariance: NormalReadings['covariance']) =>
  (residuals: Float64Array): number[] =>
    Array.from(residuals, (residual, i) => normalCumulative(residual / Math.sqrt(covariance[i]![i]!)));

/** A part with normal errors. @param about  everything of it but its chances */
export function normalPart(
  about: Omit<Part, 'logLikelihood' | 'most' | 'lower' | 'simulated'>,
  readings: NormalReadings,
): Part {
  const { values, covariance, predicted } = readings;
  const { lower = readingByReading(covariance) } = readings;
  const factor = choleskyFactor(covariance);
  const rest = new Float64Array(values.length);
  const residuals = (car: CarState): Float64Array => {
    const model = predicted(car);
    for (let i = 0; i < rest.length; i++) rest[i] = values[i]! - model[i]!;
    return rest;
  };
  return {
    ...about,
    most: 0,
    lower: (car) => lower(residuals(car)),
    logLikelihood: (car) => {
      const whitened = solveLower(factor, residuals(car), rest);
      let sum = 0;
      for (const x of whitened) sum -= 0.5 * x * x;
      return Number.isFinite(sum) ? sum : Number.NEGATIVE_INFINITY;
    },
    simulated: (car, { normal }) => {
      const model = Array.from(predicted(car));
      const errors = model.map(() => normal());
      const seen = model.map((value, i) =>
        factor[i]!.reduce((sum, share, k) => sum + share * (errors[k] ?? 0), value),
      );
      return normalPart(about, { ...readings, values: seen });
    },
  };
}

/** Covariance of readings with errors of their own and one in common. */
export const commonCovariance = (own: readonly number[], common: number): number[][] =>
  own.map((sd, i) => own.map((_, j) => common * common + (i === j ? sd * sd : 0)));
