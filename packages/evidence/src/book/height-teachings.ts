import { carColumn } from '@tubgap/core';
import { thinned } from '../thinned.ts';
import { wholeCarSpace, wholeCars } from '../whole-car.ts';
import { candidates } from '../worth.ts';
import type { BookCar } from './book-car.ts';
import { carBelief } from './car-belief.ts';
import { covariance, explained } from './explained.ts';
import { ASKED, CARS_A_DRAW, type NewTyre, newCars, newHeights, standInFor } from './new-car.ts';
import type { BookBelief } from './sample-book.ts';
import { tyresOf } from './shop-priors.ts';

/** What one more measurement would teach of the height that a new car with some tyre needs. */
export interface HeightTeaching {
  model: string;
  /** Car of the book that it would be made on; left out: another one that is not in it. */
  car?: string;
  /** What would be measured, as the plan of measurements calls it. */
  measure: string;
  /** Share of the variance of that height that it would take away, 0 to 1. */
  share: number;
  /** Standard deviation of that height, and what it would be then, m. */
  before: number;
  after: number;
}

/** Draws that are looked at, all chains together. */
const LOOKED_AT = 400;
/** Less than this is the noise of so many draws. */
const LEAST_SHARE = 0.01;

/** Height of a new car in a middling run, m: draw by draw its mean over new cars, and by how much they differ in all. */
function heightsOf(middling: Float64Array): { means: Float64Array; variance: number } {
  const means = new Float64Array(middling.length / ASKED);
  let within = 0;
  for (let n = 0; n < means.length; n++) {
    const own = middling.subarray(n * ASKED, (n + 1) * ASKED);
    means[n] = own.reduce((sum, x) => sum + x, 0) / ASKED;
    within += covariance(own, own) / means.length;
  }
  return { means, variance: covariance(means, means) + within };
}

/**
 * What each measurement of the plan would teach of the height that a new car of a tyre model needs in a middling run, made on
 * each car of the book that has such a tyre or on another new one, the most first. What a new car shows of itself is the
 * plan's matter (`measurementWorths`): here it is asked what one car tells of the next.
 */
export function heightTeachings(belief: BookBelief): HeightTeaching[] {
  const cars = belief.cars.map(({ car }) => car);
  return tyresOf(cars, true)
    .flatMap((tyre) => teachingsOf(belief, cars, { ...tyre, model: tyre.model! }))
    .sort((a, b) => b.share - a.share || (JSON.stringify(a) < JSON.stringify(b) ? -1 : 1));
}

function teachingsOf(
  belief: BookBelief,
  cars: readonly BookCar[],
  tyre: NewTyre & { model: string },
): HeightTeaching[] {
  const { seed } = belief;
  const standIn = standInFor(cars, tyre)!;
  const another = newCars(belief, tyre, standIn);
  if (another.space.directions.length === 0) return [];
  const { accepted } = standIn.car.setup.tyres[standIn.tyre]!;
  const { middling, draws } = newHeights(belief, tyre, standIn, accepted);
  const { means, variance } = heightsOf(middling);
  // A draw in which some car has no height says nothing of how heights differ.
  const looked = thinned(
    Array.from(means.keys()).filter((n) => Number.isFinite(means[n]!)),
    LOOKED_AT,
  );
  if (looked.length < LOOKED_AT / 4 || !Number.isFinite(variance)) return [];
  const common = looked.map((n) => means[n]!);
  const share = covariance(common, common) / variance;
  const measured = (
    { setup }: BookCar,
    index: number,
    space: typeof another.space,
    points: readonly Float64Array[],
    car?: string,
  ): HeightTeaching[] => {
    const whole = wholeCarSpace(setup, seed);
    const speed = setup.tyres[index]!.centralCar[carColumn('trapSpeed')]!;
    const known = candidates(setup, index, speed);
    const rows = wholeCars(whole, space, points, seed, points.length, () => false).map((point) => {
      const state = whole.at(point);
      return known.map(({ reads }) => reads(state));
    });
    return known.flatMap(({ label, sd }, c): HeightTeaching[] => {
      const readings = sd.map((_, k) => rows.map((row) => row[c]![k]!));
      const taken = share * explained(common, readings, sd);
      if (taken < LEAST_SHARE) return [];
      const before = Math.sqrt(variance);
      const named = car === undefined ? {} : { car };
      return [
        {
          model: tyre.model,
          ...named,
          measure: label,
          share: taken,
          before,
          after: before * Math.sqrt(1 - taken),
        },
      ];
    });
  };
  const ofNew = measured(
    standIn.car,
    standIn.tyre,
    another.space,
    looked.map((n) => another.points[draws[n]! * CARS_A_DRAW]!),
  );
  const ofBook = cars.flatMap((car) =>
    car.setup.tyres.flatMap(({ name, tyreName }, index) => {
      if ((car.tyres[name]?.model ?? tyreName) !== tyre.model) return [];
      const { space, points } = carBelief(belief, car.name);
      return measured(
        car,
        index,
        space,
        looked.map((n) => points[draws[n]!]!),
        car.name,
      );
    }),
  );
  return [...ofBook, ...ofNew];
}
