import type { Follows, UncertainInput } from '@tubgap/casefile';
import { CAR_INPUTS, TYRE_INPUTS } from '@tubgap/core';
import {
  BLOCK,
  centralValue,
  fillFromNormals,
  fillStandardNormals,
  isSpread,
  type Law,
} from '@tubgap/statistics';
import type { RunTyre } from './setup.ts';

/** Values of all inputs of one tyre's runs, one array of draws an input. */
export interface DrawColumns {
  car: readonly Float64Array[];
  tyre: readonly Float64Array[];
  /**
   * Standard normal numbers, by stream, of inputs that were learned together, as they were last set one at a time; a
   * stream that is not in it stands at 0. All tyres of a case share it.
   */
  together: Map<string, Float64Array>;
}

/**
 * Empty columns for one block of draws of every tyre. An input of the car that several tyres share has one column,
 * drawn with the first of them; so has one of a tyre that several classes share.
 */
export function createColumns(tyres: readonly RunTyre[]): DrawColumns[] {
  const made: DrawColumns[] = [];
  const together = new Map<string, Float64Array>();
  for (const tyre of tyres) {
    const car = CAR_INPUTS.map((_, index) => {
      const first = tyres.findIndex((other) => other.car[index] === tyre.car[index]);
      return made[first]?.car[index] ?? new Float64Array(BLOCK);
    });
    const own = TYRE_INPUTS.map((_, index) => {
      const first = tyres.findIndex((other) => other.tyre[index] === tyre.tyre[index]);
      return made[first]?.tyre[index] ?? new Float64Array(BLOCK);
    });
    made.push({ car, tyre: own, together });
  }
  return made;
}

/** Streams are named by input, so that an input which is added leaves the draws of the others as they were. */
export const carStream = (name: string): string => `car/${name}`;
export const tyreStream = (tyre: string, name: string): string => `tyre/${tyre}/${name}`;

/** Stream of an input that others follow. */
export const followedStream = ({ tyre, input }: Follows): string =>
  tyre === undefined ? carStream(input) : tyreStream(tyre, input);

const normals = new Float64Array(BLOCK);
const joined = new Float64Array(BLOCK);

/** Draws of an input that was learned together with others: the sum of their own numbers, each by its share. */
function fillJoined(
  law: Law,
  follows: readonly Follows[],
  seed: number,
  prefix: string,
  block: number,
  count: number,
  out: Float64Array,
): void {
  joined.fill(0, 0, count);
  for (const followed of follows) {
    fillStandardNormals(seed, prefix + followedStream(followed), block, normals, count);
    for (let i = 0; i < count; i++) joined[i]! += followed.share * normals[i]!;
  }
  fillFromNormals(law, joined, out, count);
}

/** Value of an input without spread. */
const settledValue = ({ law, floor = Number.NEGATIVE_INFINITY }: UncertainInput): number =>
  Math.max(floor, centralValue(law));

/** One input's draws of one block, by the inverse of its law; nothing below what means anything. */
function fillInput(
  input: UncertainInput,
  seed: number,
  prefix: string,
  stream: string,
  block: number,
  count: number,
  out: Float64Array,
): void {
  const { law, floor, follows } = input;
  if (!isSpread(law)) {
    out.fill(settledValue(input), 0, count);
    return;
  }
  if (follows === undefined) {
    fillStandardNormals(seed, prefix + stream, block, normals, count);
    fillFromNormals(law, normals, out, count);
  } else fillJoined(law, follows, seed, prefix, block, count, out);
  if (floor === undefined) return;
  for (let i = 0; i < count; i++) if (out[i]! < floor) out[i] = floor;
}

/** Which inputs to draw: those fixed for the car, those new every run, or both. */
export type Kept = 'car' | 'run' | 'both';

/**
 * Draws one block of every tyre's inputs. Draw j of block b is the same whatever else is drawn, wherever it is drawn.
 * @param prefix  before every stream's name; runs of a season have streams of their own
 * @param kept  leaves the columns of other inputs as they are
 * @param counts  draws of each tyre, at most BLOCK
 * @param settled  columns to leave as they are: they hold these draws already
 */
export function fillColumns(
  tyres: readonly RunTyre[],
  seed: number,
  prefix: string,
  block: number,
  counts: readonly number[],
  kept: Kept,
  columns: readonly DrawColumns[],
  settled: ReadonlySet<Float64Array> = new Set(),
): void {
  const most = Math.max(...counts);
  const drawn = new Set(settled);
  /** Draws that a tyre's column must hold: of the class with most of those that share it. */
  const shared = (i: number, column: Float64Array): number =>
    counts.reduce(
      (all, count, k) => (columns[k]!.tyre.includes(column) ? Math.max(all, count) : all),
      counts[i]!,
    );
  tyres.forEach((tyre, i) => {
    const { car, tyre: own } = columns[i]!;
    CAR_INPUTS.forEach((name, index) => {
      const input = tyre.car[index]!;
      const column = car[index]!;
      if (drawn.has(column) || (kept !== 'both' && input.each !== kept)) return;
      drawn.add(column);
      fillInput(input, seed, prefix, carStream(name), block, most, column);
    });
    TYRE_INPUTS.forEach((name, index) => {
      const input = tyre.tyre[index]!;
      const column = own[index]!;
      if (drawn.has(column) || (kept !== 'both' && input.each !== kept)) return;
      drawn.add(column);
      fillInput(input, seed, prefix, tyreStream(tyre.tyreName, name), block, shared(i, column), column);
    });
  });
}

/** Puts every input without spread at its value, in whole blocks; the columns of the others are left as they are. */
export function fillSettled(tyres: readonly RunTyre[], columns: readonly DrawColumns[]): void {
  const settle = (input: UncertainInput, column: Float64Array): void => {
    if (!isSpread(input.law)) column.fill(settledValue(input));
  };
  tyres.forEach((tyre, i) => {
    tyre.car.forEach((input, index) => {
      settle(input, columns[i]!.car[index]!);
    });
    tyre.tyre.forEach((input, index) => {
      settle(input, columns[i]!.tyre[index]!);
    });
  });
}
