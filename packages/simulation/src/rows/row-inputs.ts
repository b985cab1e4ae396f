import { carInputPlace, type InputPlace, tyreInputPlace, type UncertainInput } from '@tubgap/casefile';
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
  /** Least value that means anything, SI; undefined: none. */
  floor: number | undefined;
}

/** Every input of a case in the kernel's order, the car's first. */
export function rowInputs({ tyres }: CaseSetup): RowInput[] {
  const about = (of: readonly UncertainInput[]): Pick<RowInput, 'spread' | 'floor'> => ({
    spread: of.some(({ law }) => isSpread(law)),
    floor: of[0]!.floor,
  });
  return [
    ...CAR_INPUTS.map(
      (name, index): RowInput => ({
        ...carInputPlace(name),
        group: 'car',
        index,
        ...about(tyres.map(({ car }) => car[index]!)),
      }),
    ),
    ...TYRE_INPUTS.map(
      (name, index): RowInput => ({
        ...tyreInputPlace(name),
        group: 'tyre',
        index,
        ...about(tyres.map(({ tyre }) => tyre[index]!)),
      }),
    ),
  ];
}
