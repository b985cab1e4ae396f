import { numberSource } from '@tubgap/statistics';
import { largestTub } from '../src/book/new-car.ts';
import { APART } from '../src/book/shares.ts';
import { openCarHeights } from '../src/car-heights.ts';
import {
  bookChain,
  gatherBook,
  newCars,
  pickEstimate,
  prepareCar,
  runDepartures,
  standInFor,
  wholeCarSpace,
  wholeCars,
} from '../src/index.ts';
import { shareAbove } from '../src/pick-estimate.ts';
import { GROWTH, inventedShop, type ShopTwist, TYRE } from './invented-shop.ts';

/** What a book said of a car that was not in it, and how that car was. */
export interface ShopFit {
  cars: number;
  /** Share of believed new cars below the true one: growth scale, height in a middling run. */
  growth: number;
  height: number;
  /** Share of draws below the truth: what the model's tyres have in common, and by how much they differ. */
  common: number;
  within: number;
  /** Height asked for, m, with the book and by the first prior. */
  asked: { book: number; prior: number };
  /** Chance that one run of such a car needs more than that, over some true cars. */
  risk: { book: number; prior: number };
  /** Share of those true cars of which more runs than are accepted need more. */
  over: { book: number; prior: number };
}

const CHAINS = 2;
/** True cars that a risk is taken over, and believed ones that a height is. */
const TRUE_CARS = 40;
const BELIEVED_CARS = 2048;
const MODEL = { construction: 'bias', model: 'slick-a' };

const below = (values: ArrayLike<number>, truth: number): number => {
  let count = 0;
  for (let i = 0; i < values.length; i++) if (values[i]! < truth) count++;
  return (count + 0.5) / (values.length + 1);
};

const meanOf = (values: readonly number[]): number => values.reduce((sum, x) => sum + x, 0) / values.length;

/**
 * Takes a shop from the priors, has its cars measured and learned from together, and asks about the next car.
 * @param own  which shop: a number of its own for each
 */
export function shopFit(
  own: number,
  effort: { pilot: number; draws: number },
  twist: ShopTwist = {},
): ShopFit {
  const { uniform } = numberSource(own, 'shop/size');
  const count = twist.cars ?? 3 + Math.floor(10 * uniform());
  const shop = inventedShop(own, count, twist);
  const prepared = shop.cars.map((car) => prepareCar(car, own));
  const chains = Array.from({ length: CHAINS }, (_, c) =>
    bookChain(shop.cars, prepared, { seed: own, ...effort }, c),
  );
  const belief = gatherBook(shop.cars, prepared, own, chains);
  const standIn = standInFor(shop.cars, MODEL)!;
  const { setup, source } = standIn.car;
  const whole = wholeCarSpace(setup, own);
  const heights = openCarHeights(setup, standIn.tyre, largestTub(standIn.car));
  const { space, points } = newCars(belief, MODEL, standIn);
  const stream = `tyre/${TYRE}/${GROWTH}`;
  const g = whole.directions.findIndex((direction) => direction.stream === stream);
  const truths = Array.from({ length: TRUE_CARS }, (_, n) => shop.newCar(MODEL.model, `next ${n}`));
  const needs = heights.middling(whole, truths);
  const first = wholeCars(whole, { ...space, directions: [] }, points, own, BELIEVED_CARS);
  const { uniform: apart } = numberSource(own, 'shop/believed apart');
  const believed = wholeCars(whole, space, points, own, BELIEVED_CARS).map((car, n) =>
    apart() < APART ? first[n]! : car,
  );
  const departures = runDepartures(heights, whole, first, own);
  const accepted = source.accept.runRisk;
  const heightOf = (cars: readonly Float64Array[]): { need: Float64Array; asked: number } => {
    const need = heights.middling(whole, cars);
    return { need, asked: pickEstimate(need, departures, accepted).of() };
  };
  const [book, prior] = [heightOf(believed), heightOf(first)];
  const risksAt = (height: number): number[] =>
    Array.from(needs, (need) => shareAbove(departures, height - need));
  const [risks, priorRisks] = [risksAt(book.asked), risksAt(prior.asked)];
  const shareOver = (of: readonly number[]): number =>
    of.filter((risk) => risk > accepted).length / of.length;
  const kind = belief.kinds.findIndex(({ name }) => name === `tyre/${GROWTH}`);
  const { nodes } = belief.model.nests[kind]!;
  const node = nodes.findIndex((name) => name.endsWith(MODEL.model));
  const { block } = belief.model.kinds[kind]!;
  const draws = (of: (chain: (typeof chains)[number]) => Float64Array, size: number, i: number): number[] =>
    chains.flatMap((chain) => Array.from({ length: chain.draws }, (_, d) => of(chain)[d * size + i]!));
  return {
    cars: count,
    growth: below(
      believed.map((car) => car[g]!),
      truths[0]![g]!,
    ),
    height: below(book.need, needs[0]!),
    common: below(
      draws(({ effects }) => effects[kind]!, nodes.length, node),
      shop.commonOf(`tyre/${GROWTH}`, ['bias', MODEL.model]),
    ),
    within: below(
      draws(({ spreads }) => spreads[block]!, 3, 0),
      shop.numbersOf(`tyre/${GROWTH}`)[0]!,
    ),
    asked: { book: book.asked, prior: prior.asked },
    risk: { book: meanOf(risks), prior: meanOf(priorRisks) },
    over: { book: shareOver(risks), prior: shareOver(priorRisks) },
  };
}
