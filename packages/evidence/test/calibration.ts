import type { CaseSetup } from '@tubgap/simulation';
import { numberSource } from '@tubgap/statistics';
import { believe, findConflicts, type Part, priorPoints, spaceOf } from '../src/index.ts';

/** What learning said of one car of the priors whose readings were made by the model, one number a stream. */
export interface CalibrationFit {
  /** (truth - mean of the believed) / their spread, in the input's own standard normal number. */
  z: number[];
  /** Share of believed cars below the truth. */
  place: number[];
  /** Readings refused as at odds; empty where nobody asked. */
  refused: string[];
}

/** Common runs of the space that readings are made in: as many as there can be, and others than the learner's. */
const RUNS_OF_THE_TRUTH = 1024;

/**
 * Takes a car from the priors, makes readings of it like those of some parts, and learns from them.
 * @param own  which car and readings: a number of its own for each
 */
export function calibrationFit(
  setup: CaseSetup,
  template: readonly Part[],
  streams: readonly string[],
  own: number,
  effort: { draws: number; pilot: number },
  askConflicts: boolean,
): CalibrationFit {
  const truths = spaceOf(setup, template, 500_000 + own, RUNS_OF_THE_TRUTH);
  const truth = priorPoints(truths, 300_000 + own, 1)[0]!;
  const numbers = numberSource(own, 'calibration/readings');
  const parts = template.map((part) => part.simulated!(truths.at(truth), numbers));
  const believed = believe(setup, parts, { seed: own, ...effort });
  const { points, space } = believed;
  const columns = streams.map((stream) => {
    const d = space.directions.findIndex((direction) => direction.stream === stream);
    return { truth: truth[d]!, values: points.map((point) => point[d]!) };
  });
  return {
    z: columns.map(({ truth: was, values }) => {
      const mean = values.reduce((sum, x) => sum + x, 0) / values.length;
      const variance = values.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (values.length - 1);
      return (was - mean) / Math.sqrt(variance);
    }),
    place: columns.map(
      ({ truth: was, values }) => (values.filter((x) => x < was).length + 0.5) / (values.length + 1),
    ),
    refused: askConflicts
      ? findConflicts(believed, own).flatMap(({ refused, reading }) => (refused ? [reading] : []))
      : [],
  };
}

/** Root mean square of some numbers. */
export const rootMeanSquare = (numbers: readonly number[]): number =>
  Math.sqrt(numbers.reduce((sum, x) => sum + x * x, 0) / numbers.length);

/** How many truths lie outside the central nine tenths of what was believed. */
export const outsideNineTenths = (places: readonly number[]): number =>
  places.filter((place) => place < 0.05 || place > 0.95).length;
