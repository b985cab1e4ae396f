import { carColumn } from '@tubgap/core';
import { type Band, type GrowthCurve, growthCurve } from '../growth-curve.ts';
import { wholeCarSpace } from '../whole-car.ts';
import { apartChances, carBelief } from './car-belief.ts';
import { type NewTyre, newCars, standInFor } from './new-car.ts';
import type { BookBelief } from './sample-book.ts';

/** Growth of a car's own tyre at its own speed at the finish, as the book believes it. */
export interface CarGrowth {
  car: string;
  /** m/s and m; nine in ten lie between low and high. */
  speed: number;
  low: number;
  middle: number;
  high: number;
  /** Chance that this tyre does not belong to its model. */
  apart: number;
}

/** Growth of one tyre model by speed, before the book and for a new car of it, with the book's cars. */
export interface ModelGrowth {
  model: string;
  construction: string;
  speeds: number[];
  before: Band;
  after: Band;
  /** At the finish of the car that stands for a new one, m/s. */
  finish: number;
  cars: CarGrowth[];
}

/** Above the fastest car's speed the curve goes on by so much. */
const BEYOND = 1.08;

const trapOf = ({ setup }: BookBelief['cars'][number]['car'], tyre: number): number =>
  setup.tyres[tyre]!.centralCar[carColumn('trapSpeed')]!;

/** Growth of one model of the book's tyres; undefined where no car has it. */
export function modelGrowth(belief: BookBelief, tyre: NewTyre & { model: string }): ModelGrowth | undefined {
  const cars = belief.cars.map(({ car }) => car);
  const standIn = standInFor(cars, tyre);
  if (standIn === undefined) return undefined;
  const { seed } = belief;
  const owners = cars.flatMap((car) =>
    car.setup.tyres.flatMap(({ name, tyreName }, i) =>
      (car.tyres[name]?.model ?? tyreName) === tyre.model ? [{ car, tyre: i, name }] : [],
    ),
  );
  const fastest = Math.max(...owners.map((one) => trapOf(one.car, one.tyre)));
  const curveOf = (
    car: typeof standIn.car,
    i: number,
    believed: ReturnType<typeof carBelief>,
    top: number,
  ): GrowthCurve => growthCurve(car.setup, believed, wholeCarSpace(car.setup, seed), i, [], top, seed);
  const { speeds, before, after } = curveOf(
    standIn.car,
    standIn.tyre,
    newCars(belief, tyre, standIn),
    BEYOND * fastest,
  );
  return {
    model: tyre.model,
    construction: tyre.construction,
    speeds,
    before,
    after,
    finish: trapOf(standIn.car, standIn.tyre),
    cars: owners.map((one): CarGrowth => {
      const speed = trapOf(one.car, one.tyre);
      const own = curveOf(one.car, one.tyre, carBelief(belief, one.car.name), speed).after;
      const apart = apartChances(belief, one.car.name).find((found) => found.tyre === one.name)?.chance ?? 0;
      return {
        car: one.car.name,
        speed,
        low: own.low.at(-1)!,
        middle: own.middle.at(-1)!,
        high: own.high.at(-1)!,
        apart,
      };
    }),
  };
}
