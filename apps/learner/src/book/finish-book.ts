import type { LearnedFile } from '@tubgap/casefile';
import {
  apartChances,
  type BookLearned,
  brierScore,
  type Conflict,
  carFile,
  type Forecast,
  forecasts,
  type HeightTeaching,
  heightTeachings,
  type ModelGrowth,
  modelGrowth,
  type Origin,
  type ReliabilityBin,
  reliabilityBins,
  type ShopPriors,
  type Teaching,
  teachings,
} from '@tubgap/evidence';
import type { PlainCar } from './book-cars.ts';

/** All that a book found, as plain values. */
export interface FoundBook {
  priors: ShopPriors;
  /** Of each car as it stands now, where something moved. */
  learned: { car: string; file: LearnedFile }[];
  /** Chance that a car's tyre does not belong to its model. */
  apart: { car: string; tyre: string; chance: number }[];
  growth: ModelGrowth[];
  forecasts: Forecast[];
  reliability: ReliabilityBin[];
  /** Mean square by which the forecasts were off; undefined without one. */
  brier: { score: number; uncertainty: number } | undefined;
  teachings: Teaching[];
  heightTeachings: HeightTeaching[];
  /** Cars with marks that nothing in their case can have made: they are no part of this, and do not run. */
  leftOut: { car: string; readings: string[] }[];
  /** Readings that sit badly with the case or with all else that is known of the car, the least likely first. */
  conflicts: ({ car: string } & Pick<Conflict, 'file' | 'reading' | 'against' | 'chance'>)[];
  /** Cars of which something was seen that the runs which stand for all are too few for. */
  tooRare: string[];
}

/** What a learned file is to say of itself. */
export interface FinishAsked {
  madeBy: string;
  /** Files of measurements, by car. */
  origins: Readonly<Record<string, readonly Origin[]>>;
}

/** Reads off what is believed of a book all that is told of it. */
export function finishBook(
  { belief, priors, leftOut, conflicts }: BookLearned,
  cars: readonly PlainCar[],
  { madeBy, origins }: FinishAsked,
): FoundBook {
  const names = new Set(belief.cars.map(({ car }) => car.name));
  const now = cars.filter(({ name, isNow }) => isNow && names.has(name));
  const all = forecasts(belief);
  const reliability = reliabilityBins(all);
  const binned = reliability.map(({ from, to }) => all.filter(({ chance }) => chance >= from && chance < to));
  const score = all.length === 0 ? undefined : brierScore(binned);
  return {
    priors,
    learned: priors.settled
      ? now
          .map(({ car }) => ({ car, file: carFile(belief, car, origins[car] ?? [], madeBy) }))
          .filter(({ file }) => file.inputs.length > 0)
      : [],
    apart: belief.cars.flatMap(({ car }) =>
      apartChances(belief, car.name).map((one) => ({ car: car.name, ...one })),
    ),
    growth: priors.models.flatMap(
      ({ construction, model }) => modelGrowth(belief, { construction, model: model! }) ?? [],
    ),
    forecasts: all,
    reliability,
    brier: score && { score: score.score, uncertainty: score.uncertainty },
    teachings: teachings(belief),
    heightTeachings: heightTeachings(belief),
    conflicts: conflicts
      .flatMap(({ car, conflicts: own }) =>
        own.map(({ file, reading, against, chance }) => ({ car, file, reading, against, chance })),
      )
      .sort((a, b) => a.chance - b.chance),
    tooRare: belief.cars.filter(({ prepared }) => !prepared.enough).map(({ car }) => car.name),
    leftOut: leftOut.map(({ car, conflicts }) => ({
      car,
      readings: conflicts.map(({ reading }) => reading),
    })),
  };
}
