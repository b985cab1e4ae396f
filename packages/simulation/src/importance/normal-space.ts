import type { UncertainInput } from '@tubgap/casefile';
import { CAR_INPUTS, TYRE_INPUTS } from '@tubgap/core';
import { BLOCK, fillFromNormals, fillStandardNormals, isSpread } from '@tubgap/statistics';
import { carStream, type DrawColumns, followedStream, tyreStream } from '../draws.ts';
import type { CaseSetup } from '../setup.ts';

/** Where a direction's value goes: one input's column. */
export interface Target {
  input: UncertainInput;
  tyre: number;
  group: 'car' | 'tyre';
  index: number;
}

/** One stream of random numbers as a direction of standard normal space. */
export interface Direction {
  stream: string;
  /** More than one where a tyre's class has a law of its own for an input of the car: both follow the same stream. */
  targets: readonly Target[];
  /** Whether it is drawn once for the car, in every class. */
  fixedForCar: boolean;
}

/** Every uncertain input of a case, each stream a standard normal number of its own. */
export interface NormalSpace {
  directions: readonly Direction[];
}

/** The space of a case: the car's inputs, then each tyre's. */
export function normalSpace(setup: CaseSetup): NormalSpace {
  const streams = new Map<string, Target[]>();
  const add = (stream: string, target: Target): void => {
    const targets = streams.get(stream) ?? [];
    if (targets.some((other) => other.input === target.input)) return;
    streams.set(stream, [...targets, target]);
  };
  setup.tyres.forEach((tyre, i) => {
    CAR_INPUTS.forEach((name, index) => {
      add(carStream(name), { input: tyre.car[index]!, tyre: i, group: 'car', index });
    });
  });
  setup.tyres.forEach((tyre, i) => {
    TYRE_INPUTS.forEach((name, index) => {
      add(tyreStream(tyre.tyreName, name), { input: tyre.tyre[index]!, tyre: i, group: 'tyre', index });
    });
  });
  // An input that was learned together with others moves with each of them.
  const all = [...streams.values()].flat();
  const directions = Array.from(streams, ([stream, own]): Direction => {
    const followers = all.filter(
      (target) =>
        !own.includes(target) && target.input.follows?.some((other) => followedStream(other) === stream),
    );
    const targets = [...own, ...followers].filter(({ input }) => isSpread(input.law));
    return { stream, targets, fixedForCar: targets.every(({ input }) => input.each === 'car') };
  });
  return { directions: directions.filter(({ targets }) => targets.length > 0) };
}

/** What a direction means for the runs of one tyre; undefined when it has no part in them. */
export function targetOf(setup: CaseSetup, direction: Direction, tyre: number): Target | undefined {
  return direction.targets.find((target) =>
    target.group === 'car'
      ? setup.tyres[tyre]!.car[target.index] === target.input
      : [tyre, setup.buildIndex].some((own) => setup.tyres[own]!.tyre[target.index] === target.input),
  );
}

const values = new Float64Array(BLOCK);
const sums = new Float64Array(BLOCK);

/** Standard normal numbers of an input: a direction's own, or with it those of the others that it follows. */
function numbersOf({ input }: Target, normals: Float64Array, count: number, columns: readonly DrawColumns[]) {
  if (input.follows === undefined) return normals;
  sums.fill(0, 0, count);
  for (const followed of input.follows) {
    const numbers = columns[0]!.together.get(followedStream(followed));
    if (numbers === undefined) continue;
    for (let i = 0; i < count; i++) sums[i]! += followed.share * numbers[i]!;
  }
  return sums;
}

/** Keeps a direction's numbers for the inputs that follow it. */
function keepNumbers(
  direction: Direction,
  normals: Float64Array,
  count: number,
  { together }: DrawColumns,
): void {
  if (direction.targets.every(({ input }) => input.follows === undefined)) return;
  const kept = together.get(direction.stream) ?? new Float64Array(BLOCK);
  kept.set(normals.subarray(0, count));
  together.set(direction.stream, kept);
}

/**
 * Puts one direction's standard normal numbers into its columns as values of their laws. Inputs that follow several
 * directions take the others as they were last set in these columns.
 */
export function setDirection(
  direction: Direction,
  normals: Float64Array,
  count: number,
  columns: readonly DrawColumns[],
): void {
  keepNumbers(direction, normals, count, columns[0]!);
  for (const target of direction.targets) {
    const { input, tyre, group, index } = target;
    const column = columns[tyre]![group][index]!;
    fillFromNormals(input.law, numbersOf(target, normals, count, columns), values, count);
    const floor = input.floor ?? Number.NEGATIVE_INFINITY;
    for (let i = 0; i < count; i++) column[i] = Math.max(values[i]!, floor);
  }
}

/** Standard normal numbers of one direction of one block, from the stream of its name. */
export function fillNormals(
  { stream }: Direction,
  seed: number,
  prefix: string,
  block: number,
  count: number,
  normals: Float64Array,
): void {
  fillStandardNormals(seed, prefix + stream, block, normals, count);
}
