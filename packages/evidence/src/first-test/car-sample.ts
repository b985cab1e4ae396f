import {
  addWeight,
  type CarRuns,
  emptySteps,
  HEIGHT_STEPS,
  type Risk,
  riskByHeight,
} from '@tubgap/simulation';
import { SEEN_FROM } from '@tubgap/statistics';

/** Which cars of a sample are meant: 1 or 0 a car. */
export type Chosen = Uint8Array;

/** Plain cars, and cars drawn about the touches with their weights; in both the same setups in the same order. */
export interface CarSample {
  plain: CarRuns;
  weighted: CarRuns;
  /** Step of the tallies at which the tub stands. */
  step: number;
}

/** A choice among the plain and among the weighted cars. */
export interface ChosenCars {
  plain: Chosen;
  weighted: Chosen;
}

/** Cars of both kinds that a test on one run leaves. */
export function filterCars(
  { plain, weighted }: CarSample,
  cars: ChosenCars,
  keep: (runs: CarRuns, car: number) => boolean,
): ChosenCars {
  const kept = (runs: CarRuns, chosen: Chosen): Chosen =>
    chosen.map((one, car) => (one === 1 && keep(runs, car) ? 1 : 0));
  return { plain: kept(plain, cars.plain), weighted: kept(weighted, cars.weighted) };
}

export const countOf = (chosen: Chosen): number => chosen.reduce((sum, one) => sum + one, 0);

/** Risk of the chosen cars in one setup, by the rule that the simulation trusts its weighted runs by. */
export function riskOf(
  { plain, weighted, step }: CarSample,
  cars: ChosenCars,
  setup: number,
  event: 'steps' | 'contactSteps',
): Risk {
  const counts = new Float64Array(HEIGHT_STEPS + 1);
  const unseen = new Float64Array(HEIGHT_STEPS + 1);
  plain.setups[setup]![event].forEach((n, car) => {
    counts[n]! += cars.plain[car]!;
    if (plain.ratios[car]! < SEEN_FROM) unseen[n]! += cars.plain[car]!;
  });
  const steps = emptySteps();
  let all = 0;
  weighted.setups[setup]![event].forEach((n, car) => {
    if (cars.weighted[car] === 0) return;
    const weight = weighted.weights[car]!;
    all += weight;
    addWeight(steps, n, weight);
  });
  return riskByHeight(
    { events: countOf(cars.plain), all: counts, unseen },
    all > 0 ? { events: all, steps } : undefined,
  )(step);
}
