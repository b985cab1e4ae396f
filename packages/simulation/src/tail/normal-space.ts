import type { UncertainInput } from '@tubgap/casefile';
import { CAR_INPUTS, TYRE_INPUTS } from '@tubgap/core';
import { BLOCK, fillFromNormals, fillUniforms, isSpread, normalQuantile } from '@tubgap/uncertainty';
import { carStream, type DrawColumns, tyreStream } from '../draws.ts';
import type { CaseSetup } from '../setup.ts';

/** One uncertain input as a direction of standard normal space. */
export interface Direction {
  input: UncertainInput;
  stream: string;
  /** Its column, and the tyres whose runs it takes part in. */
  tyre: number;
  group: 'car' | 'tyre';
  index: number;
}

/** Every uncertain input of a case, each a standard normal number of its own. */
export interface NormalSpace {
  directions: readonly Direction[];
}

/** The space of a case: the car's inputs (once, where tyres share them), then each tyre's. */
export function normalSpace(setup: CaseSetup): NormalSpace {
  const directions: Direction[] = [];
  const taken = new Set<UncertainInput>();
  const add = (direction: Direction): void => {
    if (!isSpread(direction.input.law) || taken.has(direction.input)) return;
    taken.add(direction.input);
    directions.push(direction);
  };
  setup.tyres.forEach((tyre, i) => {
    CAR_INPUTS.forEach((name, index) => {
      add({ input: tyre.car[index]!, stream: carStream(name), tyre: i, group: 'car', index });
    });
    TYRE_INPUTS.forEach((name, index) => {
      add({ input: tyre.tyre[index]!, stream: tyreStream(tyre.name, name), tyre: i, group: 'tyre', index });
    });
  });
  return { directions };
}

const values = new Float64Array(BLOCK);

/** Puts one direction's standard normal numbers into its column as values of its law. */
export function setDirection(
  direction: Direction,
  normals: Float64Array,
  count: number,
  columns: readonly DrawColumns[],
): void {
  const column = columns[direction.tyre]![direction.group][direction.index]!;
  const { law } = direction.input;
  fillFromNormals(law, normals, values, count);
  const floor = direction.input.floor ?? Number.NEGATIVE_INFINITY;
  for (let i = 0; i < count; i++) column[i] = Math.max(values[i]!, floor);
}

/** Standard normal numbers of one direction of one block, from the stream of its name. */
export function fillNormals(
  direction: Direction,
  seed: number,
  prefix: string,
  block: number,
  count: number,
  normals: Float64Array,
): void {
  fillUniforms(seed, prefix + direction.stream, block, normals, count);
  for (let i = 0; i < count; i++) normals[i] = normalQuantile(normals[i]!);
}
