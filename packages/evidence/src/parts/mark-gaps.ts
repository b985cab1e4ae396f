import type { Case } from '@tubgap/casefile';
import { type AngleTable, fillAngles } from '@tubgap/core';
import { axleHeightsOf, type CaseSetup, clearanceOf } from '@tubgap/simulation';
import { type CarState, MOST_RUNS } from '../car-space.ts';
import type { AsBuilt, MarkReading } from '../readings.ts';
import { builtTub } from './gaps.ts';

/** Smallest gaps to the tub in the car at the hub angles of some marks, in every common run of a car. */
export interface MarkGaps {
  /** Works them out for a car, over those of the car before. */
  fill: (state: CarState) => void;
  /** Of one mark's angle, a common run each, m; those after the state's own count mean nothing. */
  of: (mark: Pick<MarkReading, 'angle'>) => Float64Array;
}

/**
 * Opens the gaps of one tyre's marks.
 * @param built  the tub in the car; its height may be another than the measured one's
 */
export function openMarkGaps(
  source: Case,
  setup: CaseSetup,
  tyre: string,
  marks: readonly Pick<MarkReading, 'angle'>[],
  built: AsBuilt,
): MarkGaps {
  const i = setup.tyres.findIndex((other) => other.name === tyre);
  const tub = builtTub(source, setup, built);
  const angles = Float64Array.from(new Set(marks.map(({ angle }) => angle))).sort();
  const table = (): AngleTable => ({
    capacity: MOST_RUNS,
    angles,
    values: new Float64Array(angles.length * MOST_RUNS),
  });
  const radii = table();
  const gaps = { tub, topHeight: built.topHeight, atRest: table(), inRun: table() };
  const axleHeights = new Float64Array(MOST_RUNS);
  return {
    fill: (state) => {
      const columns = state.runs();
      axleHeightsOf(setup, columns, state.runCount, axleHeights);
      fillAngles(
        clearanceOf(setup, i),
        setup.tyres[i]!.setup,
        columns[i]!,
        axleHeights,
        state.runCount,
        radii,
        gaps,
      );
    },
    of: ({ angle }) => {
      const first = angles.indexOf(angle) * MOST_RUNS;
      return gaps.inRun.values.subarray(first, first + MOST_RUNS);
    },
  };
}
