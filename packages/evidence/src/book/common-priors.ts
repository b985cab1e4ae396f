import { exactLawWords, inputsOf, type LearnedInput } from '@tubgap/casefile';
import { CAR_INPUTS } from '@tubgap/core';
import { normalSummary, numberSource, sampleQuantile, type UpdatedLaw } from '@tubgap/statistics';
import { hasMoved, lawRange, short } from '../learned.ts';
import { TAPE_ERROR } from '../parts/standing.ts';
import { SHOP, STATED, TAPE_KIND } from './book-car.ts';
import { groupDraws } from './group-draws.ts';
import { CARS_A_DRAW } from './new-car.ts';
import type { BookBelief } from './sample-book.ts';

/** An input of the car as cars of one shop, or tubs of one builder, have it. */
export interface CommonInput extends Omit<LearnedInput, 'tyre' | 'startedFrom'> {
  /** The program's prior that it started from; left out: whatever law the shop states of a car. */
  startedFrom?: string;
}

/** What cars of one shop, or tubs of one builder, have in common. */
export interface CommonPriors {
  /** Who the builder is; left out: of the shop's cars. */
  builder?: string;
  /** Cars with readings that it rests on. */
  cars: number;
  inputs: CommonInput[];
}

/** What the shop's tape reads too much: median and the range that holds nine in ten, m. */
export interface TapeError {
  tape: string;
  cars: number;
  low: number;
  middle: number;
  high: number;
}

const signed = (value: number): string => `${value < 0 ? '−' : '+'}${Math.abs(value).toFixed(1)}`;

/** The words of a common error of what a shop states: there is no one law that it is of. */
const statedRange = (draws: Float64Array): string => {
  const sorted = draws.slice().sort();
  const [low, middle, high] = [0.05, 0.5, 0.95].map((q) => signed(sampleQuantile(sorted, q)));
  return `what the case states ${middle} of its standard deviations (${low} to ${high})`;
};

/** What the book believes of a family's coordinates for one more car of a group. */
function commonIn(
  belief: BookBelief,
  family: 'car' | 'builder',
  group: string,
  widened: number,
): CommonInput[] {
  const found = belief.kinds.flatMap(({ name, family: own }) => {
    if (own !== family) return [];
    const opened = belief.cars.find(({ places }) =>
      places.some((place) => place?.kind === name && place.groups[0] === group),
    );
    if (opened === undefined) return [];
    const direction = opened.space.directions[opened.places.findIndex((place) => place?.kind === name)]!;
    const groups = groupDraws(belief, name, [group]);
    const { normal } = numberSource(belief.seed, `book/common/${name}`);
    const draws = belief.chains.flatMap((chain) =>
      Array.from({ length: chain.draws * CARS_A_DRAW }, (_, n) => {
        const { middle, spread } = groups.at(chain, Math.floor(n / CARS_A_DRAW));
        return middle + spread * normal();
      }),
    );
    return [{ name, source: opened.car.source, direction, draws: Float64Array.from(draws) }];
  });
  const moved = found.filter(({ draws }) => hasMoved(draws));
  const { coordinates, factor } = normalSummary(moved.map(({ draws }) => draws));
  return moved.map(({ name, source, direction, draws }, i): CommonInput => {
    const input = CAR_INPUTS[direction.targets[0]!.index]!;
    const [{ input: first }] = inputsOf(source, { input }) as [ReturnType<typeof inputsOf>[number]];
    const { middle, below, above } = coordinates[i]!;
    const from = first.law as UpdatedLaw['from'];
    const spread = { below: below * widened, above: above * widened };
    const isStated = name.startsWith(STATED);
    return {
      input,
      label: first.label,
      ...(isStated ? {} : { startedFrom: exactLawWords(first.law) }),
      before: isStated ? 'as the case states' : lawRange(from, first.kind, source.units),
      after: isStated
        ? statedRange(draws)
        : lawRange({ kind: 'updated', from, middle, ...spread }, first.kind, source.units),
      middle: short(middle),
      spreadBelow: short(spread.below),
      spreadAbove: short(spread.above),
      together: Array.from(factor[i]!.subarray(0, i + 1), short),
    };
  });
}

const carsOf = ({ cars }: BookBelief, family: string, group: string): number =>
  cars.filter(({ places }) => places.some((place) => place?.family === family && place.groups[0] === group))
    .length;

/**
 * What the book says of the car itself and of how its tub is set out, for one more car of the shop or one more tub of a
 * builder; those of which nothing moved are left out.
 * @param widened  factor of all spreads, so that no quantile of the height comes out too low
 */
export function commonPriors(belief: BookBelief, widened: number): CommonPriors[] {
  const builders = [...new Set(belief.cars.flatMap(({ car }) => car.builder ?? []))].sort();
  const all: CommonPriors[] = [
    { cars: carsOf(belief, 'car', SHOP), inputs: commonIn(belief, 'car', SHOP, widened) },
    ...builders.map((builder) => ({
      builder,
      cars: carsOf(belief, 'builder', builder),
      inputs: commonIn(belief, 'builder', builder, widened),
    })),
  ];
  return all.filter(({ inputs }) => inputs.length > 0);
}

/** What each tape of the shop reads too much, as the rollouts of all cars say; none where they say too little. */
export function tapeErrors(belief: BookBelief): TapeError[] {
  const k = belief.kinds.findIndex(({ name }) => name === TAPE_KIND);
  if (k < 0) return [];
  const tapes = [...new Set(belief.cars.flatMap(({ car }) => car.tape ?? []))].sort();
  return tapes.map((tape): TapeError => {
    const groups = groupDraws(belief, TAPE_KIND, [tape]);
    const sorted = Float64Array.from(
      belief.chains.flatMap((chain) =>
        Array.from({ length: chain.draws }, (_, draw) => TAPE_ERROR * groups.at(chain, draw).middle),
      ),
    ).sort();
    const [low, middle, high] = [0.05, 0.5, 0.95].map((q) => sampleQuantile(sorted, q)) as [
      number,
      number,
      number,
    ];
    return { tape, cars: carsOf(belief, 'tool', tape), low, middle, high };
  });
}
