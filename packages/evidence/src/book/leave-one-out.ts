import {
  logMeanLikelihood,
  type NestState,
  nestState,
  numberSource,
  pointAt,
  setLeaves,
  type UnitLaw,
  type UnitState,
  unitLaw,
} from '@tubgap/statistics';
import { thinned } from '../thinned.ts';
import type { BookBelief } from './sample-book.ts';
import { APART } from './shares.ts';

/** How well the others foretell a car's tyre, against the first prior. */
export interface Gain {
  car: string;
  tyre: string;
  model: string;
  construction: string;
  /**
   * Log of the chance of all that was seen of it, foretold by the others over foretold by the first prior. Below 0 the
   * others foretell it worse; what a tyre that stands apart may take away is bounded.
   */
  gain: number;
  /** Draws that stand behind it, as their weights leave them. */
  effectiveDraws: number;
}

/** Draws that are looked at, all chains together. */
const LOOKED_AT = 120;
/** Where fewer stand behind a gain, a run without the car has to tell. */
const FEW_DRAWS = 20;

/** Where all cars stand in one draw, told to the nests. */
interface Standing {
  states: NestState[];
  units: UnitState[];
}

/** Every few draws of all chains, each set up in turn. */
function* standings({ model, chains }: BookBelief): Generator<Standing> {
  const every = chains.flatMap((chain) =>
    Array.from({ length: chain.draws }, (_, draw) => ({ chain, draw })),
  );
  for (const { chain, draw } of thinned(every, LOOKED_AT)) {
    const states = model.nests.map(nestState);
    model.kinds.forEach(({ block, variances }, k) => {
      const { size } = model.spreads[block]!;
      states[k]!.reset(variances(chain.spreads[block]!.subarray(draw * size, (draw + 1) * size)));
    });
    const units = model.units.map(({ coordinates, apart = [] }, u): UnitState => {
      const n = coordinates.length;
      return {
        point: chain.units[u]!.subarray(draw * n, (draw + 1) * n),
        level: 0,
        guided: 0,
        apart: apart.map((_, clique) => chain.apart[u]![draw * apart.length + clique] === 1),
      };
    });
    units.forEach((unit, u) => {
      setLeaves(model, states, u, unit, true);
    });
    yield { states, units };
  }
}

/** Chance of a car's evidence with one tyre as its group has it, over that by the first prior: normal law for the evidence. */
function foretoldOver(
  { model }: BookBelief,
  u: number,
  states: readonly NestState[],
  isPooled: (clique: number | undefined) => boolean,
): number {
  const { coordinates, steering } = model.units[u]!;
  const some = coordinates.map((one) => (isPooled(one.clique) ? one : {}));
  const law = unitLaw(some, model.leaves[u]!, states, () => false);
  const first = unitLaw(
    coordinates.map(() => ({})),
    model.leaves[u]!,
    states,
    () => false,
  );
  return Math.exp(Math.min(500, logMeanLikelihood(law, steering) - logMeanLikelihood(first, steering)));
}

interface Row extends Omit<Gain, 'gain' | 'effectiveDraws'> {
  u: number;
  clique: number;
}

const rowsOf = ({ cars }: BookBelief): Row[] =>
  cars.flatMap(({ car, cliques }, u) =>
    cliques.map((t, clique) => {
      const { name } = car.setup.tyres[t]!;
      const { construction } = car.source.tyres[t]!;
      return { u, clique, car: car.name, tyre: name, model: car.tyres[name]?.model ?? name, construction };
    }),
  );

/**
 * Means over draws of the chance of what was seen of a car's tyre, as its group foretells it without the car, over that by
 * the first prior.
 * @param without  whether the draws have not seen the car; those that have count by one over that chance
 */
function gainsOf(belief: BookBelief, rows: readonly Row[], without: boolean): Gain[] {
  const sums = rows.map((row) => ({ row, sum: 0, squares: 0, count: 0 }));
  for (const { states, units } of standings(belief)) {
    for (const own of sums) {
      const { u, clique } = own.row;
      setLeaves(belief.model, states, u, units[u]!, false);
      const ratio = foretoldOver(belief, u, states, (other) => other === clique);
      const mixed = (1 - APART) * ratio + APART;
      const counted = without ? mixed : 1 / mixed;
      own.sum += counted;
      own.squares += counted * counted;
      own.count++;
      setLeaves(belief.model, states, u, units[u]!, true);
    }
  }
  return sums.map(({ row: { u: _, clique: __, ...names }, sum, squares, count }) => ({
    ...names,
    gain: (without ? 1 : -1) * Math.log(sum / count),
    effectiveDraws: (sum * sum) / squares,
  }));
}

/**
 * Foretells every tyre of every car from the other cars, without sampling anew: draws that saw the car too are weighed
 * by one over its chance in them. The car's evidence enters by the normal law that steers its steps, so that the
 * figure is a good one and not an exact one. Source: A. E. Gelfand (1996), Model determination using sampling-based
 * methods, in Markov Chain Monte Carlo in Practice, from memory.
 */
export const leaveOneOut = (belief: BookBelief): Gain[] => gainsOf(belief, rowsOf(belief), false);

/**
 * The same of one car from draws that have not seen it.
 * @param belief  of a run `without` that car
 */
export const foretoldWithout = (belief: BookBelief, car: string): Gain[] =>
  gainsOf(
    belief,
    rowsOf(belief).filter((row) => row.car === car),
    true,
  );

/** Cars of which too few draws tell how the others foretell them, by name. */
export const doubtfulCars = (gains: readonly Gain[]): string[] => [
  ...new Set(gains.filter(({ effectiveDraws }) => effectiveDraws < FEW_DRAWS).map(({ car }) => car)),
];

/** A tyre model that several cars have, and whether the book narrows it. */
export interface ModelTrust {
  model: string;
  construction: string;
  cars: number;
  /** Of all its cars together. */
  gain: number;
  narrowed: boolean;
}

/** Sums of gains by model: what the others do not foretell better than the first prior, taken together, is not narrowed. */
export function modelTrust(gains: readonly Gain[]): ModelTrust[] {
  const models = new Map<string, ModelTrust>();
  for (const { model, construction, gain } of gains) {
    const before = models.get(model) ?? { model, construction, cars: 0, gain: 0, narrowed: true };
    models.set(model, { ...before, cars: before.cars + 1, gain: before.gain + gain });
  }
  return [...models.values()]
    .map((own) => ({ ...own, narrowed: own.cars < 2 || own.gain > 0 }))
    .sort((a, b) => (a.model < b.model ? -1 : 1));
}

/** What the other cars foretold of an event of a car, and what came. */
export interface Forecast {
  car: string;
  /** Name of the reading, as its part has it. */
  reading: string;
  chance: number;
  happened: boolean;
}

/** Foretells every event of every car from the others: marks that runs left, or did not. */
export function forecasts(belief: BookBelief): Forecast[] {
  const rows = belief.cars.flatMap(({ car }, u) =>
    car.parts.flatMap(({ events, names }) =>
      events === undefined ? [] : [{ u, car: car.name, events, names, sums: names.map(() => 0), weight: 0 }],
    ),
  );
  const numbers = belief.cars.map(({ car }) => numberSource(belief.seed, `book/forecast/${car.name}`));
  for (const { states, units } of standings(belief)) {
    for (const u of new Set(rows.map((row) => row.u))) {
      const { coordinates } = belief.model.units[u]!;
      const { normal, uniform } = numbers[u]!;
      setLeaves(belief.model, states, u, units[u]!, false);
      const weight = 1 / ((1 - APART) * foretoldOver(belief, u, states, () => true) + APART);
      const apart = uniform() < APART;
      const law: UnitLaw = unitLaw(coordinates, belief.model.leaves[u]!, states, () => apart);
      setLeaves(belief.model, states, u, units[u]!, true);
      const point = pointAt(
        law,
        Float64Array.from(coordinates, () => normal()),
      );
      for (const row of rows.filter((one) => one.u === u)) {
        const chances = row.events.chances(belief.cars[u]!.space.at(point));
        chances.forEach((chance, i) => {
          row.sums[i]! += weight * chance;
        });
        row.weight += weight;
      }
    }
  }
  return rows.flatMap(({ car, events, names, sums, weight }) =>
    names.map((reading, i) => ({
      car,
      reading,
      chance: sums[i]! / weight,
      happened: events.happened[i]!,
    })),
  );
}
