import {
  allowedRange,
  carInputPlace,
  type InputPlace,
  TOSS_PATH,
  tyreInputPlace,
  type UncertainInput,
} from '@tubgap/casefile';
import { CAR_INPUTS, TYRE_INPUTS } from '@tubgap/core';
import { isSpread } from '@tubgap/statistics';
import type { CaseSetup } from '../setup.ts';

/** An input as a column of a table of runs: where it stands among the columns of draws. */
export interface RowInput extends InputPlace {
  group: 'car' | 'tyre';
  /** Index among CAR_INPUTS or TYRE_INPUTS. */
  index: number;
  /** Whether it has a spread with at least one tyre; else it is the same in every run of a tyre. */
  spread: boolean;
  /** What a run may be given, SI, both included: what a case may say of a middle, and as much again on either side for the tails. */
  low: number;
  high: number;
}

/** Range of a run's value with the tyres of a case. */
function rangeOf(
  { tyres }: CaseSetup,
  path: string,
  floor = Number.NEGATIVE_INFINITY,
): { low: number; high: number } {
  if (path === TOSS_PATH) return { low: 0, high: 1 };
  const ranges = tyres.map(({ setup }) => allowedRange(path, setup.construction));
  const min = Math.min(...ranges.map((range) => range.min));
  const max = Math.max(...ranges.map((range) => range.max));
  return { low: Math.max(floor, min - (max - min)), high: max + (max - min) };
}

/** Every input of a case in the kernel's order, the car's first. */
export function rowInputs(setup: CaseSetup): RowInput[] {
  const { tyres } = setup;
  const about = (place: InputPlace, of: readonly UncertainInput[]) => ({
    ...place,
    ...rangeOf(setup, place.path, of[0]!.floor),
    spread: of.some(({ law }) => isSpread(law)),
  });
  return [
    ...CAR_INPUTS.map(
      (name, index): RowInput => ({
        group: 'car',
        index,
        ...about(
          carInputPlace(name),
          tyres.map(({ car }) => car[index]!),
        ),
      }),
    ),
    ...TYRE_INPUTS.map(
      (name, index): RowInput => ({
        group: 'tyre',
        index,
        ...about(
          tyreInputPlace(name),
          tyres.map(({ tyre }) => tyre[index]!),
        ),
      }),
    ),
  ];
}
