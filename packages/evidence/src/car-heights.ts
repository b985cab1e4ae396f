import { CAR_INPUTS, TYRE_INPUTS } from '@tubgap/core';
import { type CaseSetup, fillColumns, tyreResponse } from '@tubgap/simulation';
import { BLOCK } from '@tubgap/statistics';
import type { CarSpace } from './car-space.ts';

/** Top height that each of some cars needs in one tub with one tyre, m. */
export interface CarHeights {
  /** In a run in which all that changes from run to run stands at its middle. */
  middling: (space: CarSpace, points: readonly Float64Array[]) => Float64Array;
  /** In one run each, drawn; cars are taken in turn. */
  drawn: (space: CarSpace, points: readonly Float64Array[], seed: number) => Float64Array;
}

/** Opens the heights of one tyre in one tub. */
export function openCarHeights(setup: CaseSetup, tyre: number, tub: number): CarHeights {
  const heights = (
    space: CarSpace,
    points: readonly Float64Array[],
    seed: number | undefined,
  ): Float64Array => {
    const response = tyreResponse(setup, tyre, tub);
    const out = new Float64Array(points.length);
    for (let from = 0; from < points.length; from += BLOCK) {
      const count = Math.min(BLOCK, points.length - from);
      if (seed !== undefined) {
        const counts = setup.tyres.map(() => count);
        fillColumns(setup.tyres, seed, 'heights/', from / BLOCK, counts, 'run', response.columns);
      }
      for (let n = 0; n < count; n++) {
        const state = space.at(points[from + n]!);
        setup.tyres.forEach((own, i) => {
          const columns = response.columns[i]!;
          CAR_INPUTS.forEach((_, c) => {
            if (own.car[c]!.each === 'car') columns.car[c]![n] = state.car[i]![c]!;
          });
          TYRE_INPUTS.forEach((_, c) => {
            if (own.tyre[c]!.each === 'car') columns.tyre[c]![n] = state.tyre[i]![c]!;
          });
        });
      }
      out.set(response.evaluate(count).subarray(0, count), from);
    }
    return out;
  };
  return {
    middling: (space, points) => heights(space, points, undefined),
    drawn: (space, points, seed) => heights(space, points, seed),
  };
}
