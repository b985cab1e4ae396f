import {
  bestStart,
  choleskyFactor,
  type LogLikelihood,
  normalAtMode,
  numberSource,
  solveLower,
} from '@tubgap/statistics';
import { type CarSpace, MOST_RUNS } from '../car-space.ts';
import { commonRunError, LARGEST_ERROR } from '../common-runs.ts';
import type { Part } from '../parts/part.ts';
import { jointLikelihood, spaceOf } from '../posterior.ts';
import type { BookCar } from './book-car.ts';
import { type CostlyGuide, fitCostly, guideValue, type NormalLaw } from './costly-guide.ts';

/** What a chain has to know of a car before it begins; plain numbers, so that a thread may hand it on. */
export interface PreparedCar {
  name: string;
  /** Common runs of its space, and whether they are enough. */
  runCount: number;
  enough: boolean;
  /** Its evidence as a normal likelihood: exp(−½ zᵀ precision z + pull · z). */
  precision: Float64Array[];
  pull: Float64Array;
  /** Mean and factor of the covariance of the car alone, by that and the first prior. */
  alone: NormalLaw;
  /** Of each costly part, in their order: in short, or not at all where that is too far off. */
  guides: (CostlyGuide | undefined)[];
}

/**
 * Common runs of a car to begin with: most cars of a book were run well below what would have touched, and say the same with
 * few runs as with many. Which do is held against others, at least FEWEST_RUNS, and not believed beforehand.
 */
const FIRST_RUNS = 64;
const STARTS = 256;
/** Steps guided by a fit that is further off than this would mostly be thrown away. */
const FURTHEST_OFF = 1.5;

/** Of the common runs of a car: its own, so that the errors of many cars do not add up. */
export const runSeed = (seed: number, name: string): number =>
  Math.floor(numberSource(seed, `book/runs/${name}`).uniform() * 2 ** 29);

const inverseOf = (factor: readonly Float64Array[]): Float64Array[] => {
  const n = factor.length;
  // Columns of the factor's inverse.
  const columns = factor.map((_, k) => {
    const unit = new Float64Array(n);
    unit[k] = 1;
    return solveLower(factor, unit, new Float64Array(n));
  });
  return columns.map((a) => Float64Array.from(columns, (b) => a.reduce((sum, x, i) => sum + x * b[i]!, 0)));
};

/** The space of a car of the book. */
export const bookSpace = (car: BookCar, seed: number, runCount: number): CarSpace =>
  spaceOf(car.setup, car.parts, runSeed(seed, car.name), runCount);

const costlyOf = ({ parts }: BookCar): Part[] => parts.filter(({ costly }) => costly);

/** The likelihood of a car by which steps are tried, where some costly part has a short form. */
export function guideOf(
  car: BookCar,
  space: CarSpace,
  guides: PreparedCar['guides'],
): LogLikelihood | undefined {
  const short = guides.filter((guide) => guide !== undefined);
  if (short.length === 0) return undefined;
  const costly = costlyOf(car);
  const rest = jointLikelihood(
    space,
    car.parts.filter((part) => !part.costly || guides[costly.indexOf(part)] === undefined),
  );
  return (point, floor) => {
    const guided = short.reduce((sum, guide) => sum + guideValue(guide, point), 0);
    return guided + rest(point, floor - guided);
  };
}

/** Finds where a car's own evidence leaves it, as a normal law, and how many common runs it takes. */
export function prepareCar(car: BookCar, seed: number): PreparedCar {
  const cheap = car.parts.filter(({ costly }) => !costly);
  const costly = costlyOf(car);
  const numbers = numberSource(seed, `book/prepare/${car.name}`);
  for (let runCount = FIRST_RUNS; ; runCount *= 2) {
    const space = bookSpace(car, seed, runCount);
    const easy = jointLikelihood(space, cheap);
    const start =
      cheap.length === 0
        ? new Float64Array(space.dimension)
        : bestStart(easy, space.dimension, STARTS, numbers);
    const law = normalAtMode(easy, start, () => {});
    const inverse = inverseOf(law.factor);
    const precision = inverse.map((row, i) => row.map((x, k) => (i === k ? x - 1 : x)));
    const pull = inverse.map((row) => row.reduce((sum, x, k) => sum + x * law.mean[k]!, 0));
    let found: PreparedCar = {
      name: car.name,
      runCount,
      enough: true,
      precision,
      pull: Float64Array.from(pull),
      alone: law,
      guides: [],
    };
    if (costly.length === 0) return found;
    let last: Float64Array[] = [];
    for (const part of costly) {
      const { guide, points } = fitCostly(jointLikelihood(space, [part]), part.most, found.alone, numbers);
      last = points;
      found = withCostly(found, guide);
    }
    const off = commonRunError(car.setup, { space, parts: car.parts, points: last }, runSeed(seed, car.name));
    if (off > LARGEST_ERROR && runCount < MOST_RUNS) continue;
    return { ...found, enough: off <= LARGEST_ERROR };
  }
}

function withCostly(before: PreparedCar, guide: CostlyGuide): PreparedCar {
  const { way, mean, slope, bend } = guide;
  const steep = -2 * bend;
  const middle = way.reduce((sum, x, i) => sum + x * mean[i]!, 0);
  const precision = before.precision.map((row, i) => row.map((x, k) => x + steep * way[i]! * way[k]!));
  const pull = before.pull.map((x, i) => x + (slope + steep * middle) * way[i]!);
  const curved = precision.map((row, i) => row.map((x, k) => (i === k ? x + 1 : x)));
  const covariance = inverseOf(choleskyFactor(curved));
  const alone = {
    mean: Float64Array.from(covariance, (row) => row.reduce((sum, x, k) => sum + x * pull[k]!, 0)),
    factor: choleskyFactor(covariance),
  };
  const guides = [...before.guides, guide.off <= FURTHEST_OFF ? guide : undefined];
  return { ...before, precision, pull, alone, guides };
}
