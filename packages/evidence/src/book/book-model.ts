import { type Coordinate, type OrderedModel, orderModel, pointOf, type Unit } from '@tubgap/statistics';
import type { CarSpace } from '../car-space.ts';
import { jointLikelihood } from '../posterior.ts';
import { type BookCar, type Family, type Place, placesOf } from './book-car.ts';
import { bookSpace, guideOf, type PreparedCar } from './prepare-car.ts';
import { APART, blockOf, sharesOf } from './shares.ts';

/** A car of the book, opened: its space, and where its coordinates have their place. */
export interface OpenedCar {
  car: BookCar;
  space: CarSpace;
  prepared: PreparedCar;
  places: readonly (Place | undefined)[];
  /** Tyres, by index, that may stand apart: the model's cliques in this order. */
  cliques: readonly number[];
}

/** The book as one model, and what its parts are. */
export interface BookModel {
  /** In the order of their names, those with readings alone. */
  cars: readonly OpenedCar[];
  model: OrderedModel;
  /** Names of the kinds of coordinates that hang together, in the model's order. */
  kinds: readonly { name: string; family: Family }[];
}

/**
 * What all cars together must know of a kind of coordinate for it to hang together, as shares of its variance that each
 * of them takes away, added up. Of less there is nothing to learn from, and cars stay as the first prior has them.
 */
const LEAST_KNOWN = 0.3;
/** Chains start this many times as far apart as a car alone is known. */
const STARTS_APART = 1.5;

/** Share of a coordinate's variance that the car's own evidence takes away. */
const knownOf = ({ alone }: PreparedCar, i: number): number =>
  Math.max(0, 1 - alone.factor[i]!.reduce((sum, x) => sum + x * x, 0));

/** The normal likelihood of a car that has shown nothing. */
const silent = (dimension: number): Pick<PreparedCar, 'precision' | 'pull'> => ({
  precision: Array.from({ length: dimension }, () => new Float64Array(dimension)),
  pull: new Float64Array(dimension),
});

/** Cars with readings, by name. */
export const carsWithReadings = (cars: readonly BookCar[]): BookCar[] =>
  cars.filter(({ parts }) => parts.length > 0).sort((a, b) => (a.name < b.name ? -1 : 1));

/**
 * Puts a book into one partially pooled model.
 * @param prepared  one of each car with readings, in any order
 * @param without  a car that keeps its place and is taken to have shown nothing
 * @throws RangeError when a car was not prepared
 */
export function openBook(
  cars: readonly BookCar[],
  prepared: readonly PreparedCar[],
  seed: number,
  without?: string,
): BookModel {
  const opened = carsWithReadings(cars).map((car) => {
    const own = prepared.find(({ name }) => name === car.name);
    if (own === undefined) throw new RangeError(`${car.name} was not prepared.`);
    const space = bookSpace(car, seed, own.runCount);
    return { car, space, prepared: own, places: placesOf(car, space) };
  });
  const known = new Map<string, { family: Family; sum: number; count: number }>();
  for (const { places, prepared: own } of opened) {
    places.forEach((place, i) => {
      if (place === undefined) return;
      const { sum, count } = known.get(place.kind) ?? { sum: 0, count: 0 };
      known.set(place.kind, { family: place.family, sum: sum + knownOf(own, i), count: count + 1 });
    });
  }
  const pooled = [...known]
    .filter(([, { sum }]) => sum >= LEAST_KNOWN)
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([name, rest]) => ({ name, ...rest }));
  const blocks = new Map(
    pooled.map(({ name, family }) => [blockOf(family, name).name, blockOf(family, name)]),
  );
  const spreads = [...blocks.values()];
  const blockIndex = (name: string, family: Family): number =>
    spreads.findIndex((block) => block.name === blockOf(family, name).name);
  const kindIndex = new Map(pooled.map(({ name }, k) => [name, k]));
  const openedCars = opened.map((own): OpenedCar => {
    const tyres = own.places.flatMap((place) =>
      place?.tyre !== undefined && kindIndex.has(place.kind) ? [place.tyre] : [],
    );
    return { ...own, cliques: [...new Set(tyres)].sort((a, b) => a - b) };
  });
  const model = orderModel({
    units: openedCars.map((own): Unit => {
      const { car, space, prepared: ready, places, cliques } = own;
      const isHeard = car.name !== without;
      const likelihood = isHeard ? jointLikelihood(space, car.parts) : () => 0;
      const guide = isHeard ? guideOf(car, space, ready.guides) : undefined;
      const steering = isHeard ? ready : silent(space.dimension);
      const wide = {
        mean: ready.alone.mean,
        factor: ready.alone.factor.map((row) => row.map((x) => STARTS_APART * x)),
      };
      return {
        name: car.name,
        coordinates: places.map((place): Coordinate => {
          const kind = place === undefined ? undefined : kindIndex.get(place.kind);
          if (place === undefined || kind === undefined) return {};
          const { groups, tyre } = place;
          return { kind, groups, ...(tyre === undefined ? {} : { clique: cliques.indexOf(tyre) }) };
        }),
        likelihood,
        ...(guide === undefined ? {} : { guide }),
        steering: { precision: steering.precision, pull: steering.pull },
        apart: cliques.map(() => APART),
        start: (normal) => pointOf(wide, { normal, uniform: normal }),
      };
    }),
    kinds: pooled.map(({ name, family }) => ({
      name,
      block: blockIndex(name, family),
      variances: sharesOf(family),
    })),
    spreads,
    withEffectsHeld: spreads.map((_, block) => [block]),
  });
  return { cars: openedCars, model, kinds: pooled.map(({ name, family }) => ({ name, family })) };
}
