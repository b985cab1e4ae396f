import { BLOCK } from '@tubgap/uncertainty';
import { createColumns, fillColumns } from '../draws.ts';
import { createBlockRoom } from '../run-risk.ts';
import type { CaseSetup } from '../setup.ts';
import type { Centres } from '../tail/mixture.ts';
import { drawMixture } from '../tail/mixture.ts';
import { normalSpace } from '../tail/normal-space.ts';
import { tyreResponse } from '../tail/response.ts';

/** How differently cars that fit the same description behave with one tyre in one tub at one height. */
export interface CarSpread {
  /** Share of the cars that counts as the worst. */
  worstShare: number;
  /** Run risk of the worst cars and of the rest. */
  worst: number;
  rest: number;
  /** Share of all touches that the worst cars make. */
  worstTouches: number;
}

const WORST = 0.02;
const RUNS_A_CAR = 64;

/**
 * Splits a run risk into that of the worst cars and of the rest. Cars are ranked by the height they need in a run with
 * everything that changes from run to run at its middle, so that the split is not made by the touches it is to show.
 * @param topHeight  m
 */
export function findCarSpread(
  setup: CaseSetup,
  centres: Centres,
  seed: number,
  tyre: number,
  tub: number,
  topHeight: number,
): CarSpread | undefined {
  const space = normalSpace(setup);
  const cars = { ...createBlockRoom(setup), columns: createColumns(setup.tyres) };
  const weights = new Float64Array(BLOCK);
  const counts = setup.tyres.map(() => BLOCK);
  fillColumns(setup.tyres, seed, '', 0, counts, 'car', cars.columns);
  drawMixture(
    space,
    centres,
    (d) => space.directions[d]!.fixedForCar,
    seed,
    'spread/',
    0,
    BLOCK,
    cars,
    weights,
  );

  const ranking = tyreResponse(setup, tyre, tub);
  copyFixed(setup, cars.columns, ranking.columns);
  const middle = Float64Array.from(ranking.evaluate(BLOCK).subarray(0, BLOCK));

  const runs = tyreResponse(setup, tyre, tub);
  const share = new Float64Array(BLOCK);
  for (let car = 0; car < BLOCK; car++) {
    setup.tyres.forEach((own, i) => {
      own.car.forEach((input, c) => {
        if (input.each === 'car')
          runs.columns[i]!.car[c]!.fill(cars.columns[i]!.car[c]![car]!, 0, RUNS_A_CAR);
      });
      own.tyre.forEach((input, c) => {
        if (input.each === 'car')
          runs.columns[i]!.tyre[c]!.fill(cars.columns[i]!.tyre[c]![car]!, 0, RUNS_A_CAR);
      });
    });
    const some = setup.tyres.map(() => RUNS_A_CAR);
    fillColumns(setup.tyres, seed, 'spread/', car, some, 'run', runs.columns);
    const heights = runs.evaluate(RUNS_A_CAR);
    let touches = 0;
    for (let run = 0; run < RUNS_A_CAR; run++) if (heights[run]! > topHeight) touches++;
    share[car] = touches / RUNS_A_CAR;
  }
  return split(middle, weights, share);
}

function copyFixed(
  setup: CaseSetup,
  from: ReturnType<typeof createColumns>,
  to: ReturnType<typeof createColumns>,
): void {
  setup.tyres.forEach((own, i) => {
    own.car.forEach((input, c) => {
      if (input.each === 'car') to[i]!.car[c]!.set(from[i]!.car[c]!);
    });
    own.tyre.forEach((input, c) => {
      if (input.each === 'car') to[i]!.tyre[c]!.set(from[i]!.tyre[c]!);
    });
  });
}

function split(height: Float64Array, weights: Float64Array, share: Float64Array): CarSpread | undefined {
  const order = Array.from(height.keys()).sort((a, b) => height[b]! - height[a]!);
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  let taken = 0;
  let worst = 0;
  let rest = 0;
  for (const car of order) {
    const touches = weights[car]! * share[car]!;
    if (taken < WORST * total) {
      taken += weights[car]!;
      worst += touches;
    } else {
      rest += touches;
    }
  }
  if (!(worst + rest > 0) || taken >= total) return undefined;
  return {
    worstShare: taken / total,
    worst: worst / taken,
    rest: rest / (total - taken),
    worstTouches: worst / (worst + rest),
  };
}
