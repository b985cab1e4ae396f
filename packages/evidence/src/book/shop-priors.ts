import type { LearnedInput } from '@tubgap/casefile';
import type { Direction } from '@tubgap/simulation';
import { openCarHeights } from '../car-heights.ts';
import { type Agreement, type InShort, learnedInputs, partOf, summarise } from '../learned.ts';
import { ofTheBuild, wholeCarSpace } from '../whole-car.ts';
import { bookAgreement } from './book-agreement.ts';
import type { BookCar } from './book-car.ts';
import { type CommonPriors, commonPriors, type TapeError, tapeErrors } from './common-priors.ts';
import { type Gain, leaveOneOut, type ModelTrust, modelTrust } from './leave-one-out.ts';
import { largestTub, type NewTyre, newCars, newHeights, standInFor } from './new-car.ts';
import type { BookBelief } from './sample-book.ts';

/** What the book says of one tyre for a car that is not in it. */
export interface TyrePriors extends NewTyre {
  /** Cars with readings that have it. */
  cars: number;
  /** Inputs that moved from the program's priors; none where nothing did or it is not to be believed. */
  inputs: Omit<LearnedInput, 'tyre'>[];
  widened: number;
  /**
   * Top height in the largest tub of the case that stands for it, for that case's accepted risk of a run, m; left out where
   * the book says nothing of this tyre.
   */
  height?: number;
}

/** What the book holds for cars that are not in it; data for the file that cases name. */
export interface ShopPriors {
  /** Cars with readings, runs after which nothing had touched, and marks that were found. */
  cars: number;
  unmarkedRuns: number;
  marks: number;
  seed: number;
  sampling: Agreement & { chains: number; draws: number };
  /** Whether the chains agree: else nothing of this is to be offered. */
  settled: boolean;
  models: TyrePriors[];
  /** For models that the book has never seen. */
  constructions: TyrePriors[];
  /** Of the car itself and of how its tub is set out. */
  common: CommonPriors[];
  /** What the shop's tapes read too much: for whoever measures, for a case holds no tape. */
  tapes: TapeError[];
  trust: ModelTrust[];
  gains: readonly Gain[];
}

const isOfTyre = ({ targets }: Direction): boolean => targets[0]!.group === 'tyre';

/** A new tub is set out by the same builder; what is said of tyre, shop and builder stands in lists of their own. */
const OF_A_NEW_CAR: InShort = {
  isAnew: () => false,
  blockOf: (direction) => (isOfTyre(direction) ? 'tyre' : ofTheBuild(direction) ? 'builder' : 'car'),
};

/** Tyres that the book's cars have, by model or by construction, each once. */
export function tyresOf(cars: readonly BookCar[], byModel: boolean): NewTyre[] {
  const found = new Map<string, NewTyre>();
  for (const { source, tyres } of cars) {
    for (const { name, construction } of source.tyres) {
      const model = tyres[name]?.model ?? name;
      found.set(byModel ? model : construction, byModel ? { construction, model } : { construction });
    }
  }
  return [...found].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, tyre]) => tyre);
}

const countCars = (cars: readonly BookCar[], { construction, model }: NewTyre): number =>
  cars.filter(({ source, tyres }) =>
    source.tyres.some(
      (own) =>
        own.construction === construction &&
        (model === undefined || (tyres[own.name]?.model ?? own.name) === model),
    ),
  ).length;

/**
 * What the book says of new cars, held against the first prior car by car, and whether it is to be believed.
 * @param gains  how well each car is foretold by the others; worked out from the same draws when left out
 */
export function shopPriors(belief: BookBelief, gains: readonly Gain[] = leaveOneOut(belief)): ShopPriors {
  const cars = belief.cars.map(({ car }) => car);
  const trust = modelTrust(gains);
  const deciding: Float64Array[][] = [];
  const priorsOf = (tyre: NewTyre): TyrePriors => {
    const standIn = standInFor(cars, tyre)!;
    const { car, tyre: index } = standIn;
    const believed = newCars(belief, tyre, standIn);
    const bare = { ...tyre, cars: countCars(cars, tyre), inputs: [], widened: 1 };
    const { directions } = believed.space;
    if (directions.length === 0) return bare;
    const found = newHeights(belief, tyre, standIn, car.setup.tyres[index]!.accepted);
    deciding.push(found.risks);
    const plain = { ...bare, height: found.height };
    // A model that its own cars do not foretell is none to lean on, nor a construction of such models alone.
    const own = trust.filter(({ construction, model }) =>
      tyre.model === undefined ? construction === tyre.construction : model === tyre.model,
    );
    const isTrusted = own.some(({ narrowed }) => narrowed);
    if (!isTrusted) return plain;
    const heights = openCarHeights(car.setup, index, largestTub(car));
    const summary = summarise(
      believed,
      wholeCarSpace(car.setup, belief.seed),
      heights,
      belief.seed,
      OF_A_NEW_CAR,
    );
    const ofTyre = partOf(summary, (d) => isOfTyre(directions[d]!));
    const inputs = learnedInputs(car.source, believed.space, ofTyre).map(({ tyre: _, ...input }) => input);
    return { ...plain, inputs, widened: summary.widened };
  };
  const models = tyresOf(cars, true).map(priorsOf);
  const constructions = tyresOf(cars, false).map(priorsOf);
  // What shop and builder have in common stands in the file once, and must do for every tyre.
  const widened = Math.max(1, ...[...models, ...constructions].map((one) => one.widened));
  const { settled, ...agreement } = bookAgreement(belief, deciding);
  return {
    cars: cars.length,
    unmarkedRuns: cars.reduce((sum, { seen }) => sum + (seen?.unmarkedRuns ?? 0), 0),
    marks: cars.reduce((sum, { seen }) => sum + (seen?.marks ?? 0), 0),
    seed: belief.seed,
    sampling: { ...agreement, chains: belief.chains.length, draws: belief.chains[0]?.draws ?? 0 },
    settled,
    models,
    constructions,
    common: commonPriors(belief, widened),
    tapes: tapeErrors(belief),
    trust,
    gains,
  };
}
