import { TYRE_INPUTS } from '@tubgap/core';
import { tyreStream } from '@tubgap/simulation';
import { numberSource } from '@tubgap/statistics';
import { openCarHeights } from '../car-heights.ts';
import { type CarSpace, FEWEST_RUNS, openCarSpace } from '../car-space.ts';
import { runDepartures, shareAbove } from '../pick-estimate.ts';
import { type Believed, pointsOf } from '../posterior.ts';
import { thinned } from '../thinned.ts';
import { wholeCarSpace, wholeCars } from '../whole-car.ts';
import { type BookCar, placesOf } from './book-car.ts';
import { type GroupDraws, groupDraws, sameNumbers } from './group-draws.ts';
import type { BookBelief } from './sample-book.ts';
import { APART } from './shares.ts';

/** A tyre that a new car may have: a row of the catalogue, or any of a construction. */
export interface NewTyre {
  construction: string;
  /** Left out: a model that the book has never seen. */
  model?: string;
}

/** A car of the book that stands for the new one: its case has the laws that the new one starts from. */
export interface StandIn {
  car: BookCar;
  tyre: number;
}

/** Tyre inputs of a car that stand on the program's own laws. */
const ownInputs = ({ setup }: BookCar, tyre: number): string[] => {
  const { tyreName, tyre: inputs } = setup.tyres[tyre]!;
  return inputs.flatMap(({ source, each }, i) =>
    source !== 'case' && each === 'car' ? [tyreStream(tyreName, TYRE_INPUTS[i]!)] : [],
  );
};

/** The first car by name with such a tyre, of those with most inputs as the program has them; undefined when there is none. */
export function standInFor(cars: readonly BookCar[], { construction, model }: NewTyre): StandIn | undefined {
  const found = [...cars]
    .sort((a, b) => (a.name < b.name ? -1 : 1))
    .flatMap((car) =>
      car.source.tyres.flatMap((tyre, i): StandIn[] =>
        tyre.construction === construction &&
        (model === undefined || (car.tyres[tyre.name]?.model ?? tyre.tyre) === model)
          ? [{ car, tyre: i }]
          : [],
      ),
    );
  const count = (one: StandIn): number => ownInputs(one.car, one.tyre).length;
  return found.reduce<StandIn | undefined>(
    (best, one) => (best === undefined || count(one) > count(best) ? one : best),
    undefined,
  );
}

/** The space of what a book says of a new car: what hangs together in it of tyre, shop and builder. */
function newCarSpace({ kinds }: BookBelief, { car, tyre }: StandIn, seed: number): CarSpace {
  const whole = wholeCarSpace(car.setup, seed);
  const { tyreName } = car.setup.tyres[tyre]!;
  const spoken = new Set(
    placesOf(car, whole).flatMap((place, d) => {
      if (place === undefined || place.family === 'tool') return [];
      const isNew = place.family !== 'tyre' || car.setup.tyres[place.tyre!]!.tyreName === tyreName;
      return isNew && kinds.some(({ name }) => name === place.kind) ? [whole.directions[d]!.stream] : [];
    }),
  );
  return openCarSpace(car.setup, seed, (stream) => spoken.has(stream), [], FEWEST_RUNS);
}

/** What the book says of each direction of a space, for a new car with some tyre. */
const groupsOf = (
  belief: BookBelief,
  space: CarSpace,
  { car }: StandIn,
  { construction, model }: NewTyre,
): GroupDraws[] => {
  const ofTyre = [construction, ...(model === undefined ? [] : [model])];
  return placesOf(car, space).map((place) =>
    groupDraws(belief, place!.kind, place!.family === 'tyre' ? ofTyre : place!.groups),
  );
};

/** New cars a draw of the posterior, in short forms. */
export const CARS_A_DRAW = 4;

/** New cars that belong, as if they had been believed: what a file of priors is made of, beside the chance to stand apart. */
export function newCars(belief: BookBelief, tyre: NewTyre, standIn: StandIn): Believed {
  const space = newCarSpace(belief, standIn, belief.seed);
  const groups = groupsOf(belief, space, standIn, tyre);
  const chains = belief.chains.map((chain, c) => {
    const { normal } = numberSource(belief.seed, `book/new/${tyre.construction}/${tyre.model ?? ''}/${c}`);
    const points = new Float64Array(chain.draws * CARS_A_DRAW * space.dimension);
    let place = 0;
    for (let draw = 0; draw < chain.draws; draw++) {
      for (let n = 0; n < CARS_A_DRAW; n++) {
        for (const { at } of groups) {
          const { middle, spread } = at(chain, draw);
          points[place++] = middle + spread * normal();
        }
      }
    }
    return points;
  });
  const draws = (belief.chains[0]?.draws ?? 0) * CARS_A_DRAW;
  const posterior = { dimension: space.dimension, chains, draws, asked: 0 };
  return { space, parts: [], posterior, points: pointsOf(posterior) };
}

/** Where the height of a new car is asked: the largest tub of the case that stands for it. */
export const largestTub = ({ source }: BookCar): number => {
  const diameters = source.tubs.map(({ diameter }) => diameter);
  return diameters.indexOf(Math.max(...diameters));
};

/** Whole cars that every draw of the posterior is asked about: they differ in all else as the priors say. */
export const ASKED = 32;
/** Draws of a chain that are asked about a height: more of them would tell little more and cost as much each. */
const ASKED_DRAWS = 150;
/** Cars of the priors from which single runs depart, and of which the first stand for those that stand apart. */
const DEPARTING = 4096;
const BESIDE = 1024;

/** Top height that a new car needs, by what the book believes. */
export interface NewHeights {
  /** Lowest that keeps the accepted risk of a run, m. */
  height: number;
  /** Chance that one run of a new car needs more than that, chain by chain: the number that decides. */
  risks: Float64Array[];
  /** In a middling run, of new cars that belong one after the other, m. */
  middling: Float64Array;
  /** Which draws, counted over all chains, have each ASKED of them. */
  draws: number[];
  /** Risk of a run at some height, m. */
  riskAt: (height: number) => number;
}

/**
 * The same cars under each draw, so that what differs from draw to draw is what the draws believe. Risks are those of any
 * new car, whether it belongs or stands apart.
 */
export function newHeights(
  belief: BookBelief,
  tyre: NewTyre,
  standIn: StandIn,
  accepted: number,
  tub = largestTub(standIn.car),
): NewHeights {
  const { seed, chains } = belief;
  const { setup } = standIn.car;
  const space = newCarSpace(belief, standIn, seed);
  const groups = groupsOf(belief, space, standIn, tyre);
  const whole = wholeCarSpace(setup, seed);
  const heights = openCarHeights(setup, standIn.tyre, tub);
  const numbers = sameNumbers(seed, 'book/heights', ASKED * space.dimension);
  const others = wholeCars(whole, space, [new Float64Array(space.dimension)], seed, ASKED);
  const places = space.directions.map(({ stream }) =>
    whole.directions.findIndex((direction) => direction.stream === stream),
  );
  const asked = chains.map(({ draws }) =>
    thinned(
      Array.from({ length: draws }, (_, draw) => draw),
      ASKED_DRAWS,
    ),
  );
  const cars = chains.flatMap((chain, c) =>
    asked[c]!.map((draw) => {
      const now = groups.map(({ at }) => at(chain, draw));
      return others.map((other, n) => {
        const car = other.slice();
        places.forEach((place, d) => {
          car[place] = now[d]!.middle + now[d]!.spread * numbers[n * space.dimension + d]!;
        });
        return car;
      });
    }),
  );
  const middling = heights.middling(whole, cars.flat());
  const first = firstCars(whole, seed);
  const needs: Needs = {
    middling,
    beside: heights.middling(whole, first.slice(0, BESIDE)),
    departures: runDepartures(heights, whole, first, seed),
  };
  return {
    ...decided(
      needs,
      accepted,
      asked.map(({ length }) => length),
    ),
    middling,
    draws: asked.flatMap((own, c) => {
      const before = chains.slice(0, c).reduce((sum, { draws }) => sum + draws, 0);
      return own.map((draw) => before + draw);
    }),
  };
}

/** Cars as the first prior has them. */
function firstCars(whole: CarSpace, seed: number): Float64Array[] {
  const { normal } = numberSource(seed, 'book/departures');
  return Array.from({ length: DEPARTING }, () =>
    Float64Array.from({ length: whole.dimension }, () => normal()),
  );
}

/** Heights in a middling run, of new cars that belong and of cars that stand apart, and how runs depart from it, m. */
interface Needs {
  middling: Float64Array;
  beside: Float64Array;
  departures: Float64Array;
}

/** The height that keeps the risk, and the risk there of every draw. */
function decided(
  { middling, beside, departures }: Needs,
  accepted: number,
  draws: readonly number[],
): Omit<NewHeights, 'middling' | 'draws'> {
  const risksAt = (height: number): Float64Array => {
    const riskOf = (own: number): number => shareAbove(departures, height - own);
    const apart = beside.reduce((sum, own) => sum + riskOf(own), 0) / beside.length;
    const risks = new Float64Array(middling.length / ASKED).fill(APART * apart);
    middling.forEach((own, n) => {
      risks[Math.floor(n / ASKED)]! += ((1 - APART) * riskOf(own)) / ASKED;
    });
    return risks;
  };
  const riskAt = (height: number): number =>
    risksAt(height).reduce((sum, risk) => sum + risk, 0) / (middling.length / ASKED);
  const sound = [middling, beside].map((heights) => heights.filter(Number.isFinite));
  const endOf = (end: (a: number, b: number) => number): number =>
    sound.map((heights) => heights.reduce((best, x) => end(best, x))).reduce((best, x) => end(best, x));
  let low = endOf(Math.min) + departures[0]!;
  let high = endOf(Math.max) + departures[departures.length - 1]!;
  for (let step = 0; step < 20; step++) {
    const height = 0.5 * (low + high);
    if (riskAt(height) > accepted) low = height;
    else high = height;
  }
  const all = risksAt(high);
  let from = 0;
  return {
    height: high,
    risks: draws.map((count) => {
      from += count;
      return all.slice(from - count, from);
    }),
    riskAt,
  };
}
