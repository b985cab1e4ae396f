import type { UncertainInput } from '@tubgap/casefile';
import { CAR_INPUTS, TYRE_INPUTS } from '@tubgap/core';
import { BLOCK, cumulative, isBounded, isSpread } from '@tubgap/statistics';
import { type BlockRoom, drawBlock, evaluateBlock } from './run-risk.ts';
import { type CaseSetup, isBernoulli } from './setup.ts';

/** Share of the tightest runs that is looked at. */
const TAIL = 0.02;
/** Where in a law its end begins: an input whose tightest runs lie this far out, on the median, decides by its end. */
const END = 0.93;
const BLOCKS = 8;

/** An input with hard ends whose end the tightest runs crowd against. */
export interface DecidingBound {
  tyre: string;
  label: string;
  end: 'low' | 'high';
}

/**
 * Inputs whose law has a hard end and whose tightest runs crowd against it: there the law's end, not the car, decides
 * the rare touches. Found from the tightest 2 % of 8,192 runs in one tub.
 */
export function decidingBounds(
  setup: CaseSetup,
  seed: number,
  tub: number,
  room: BlockRoom,
): DecidingBound[] {
  const runs = BLOCKS * BLOCK;
  const found: DecidingBound[] = [];
  const heights = setup.tyres.map(() => new Float64Array(runs));
  const bounded = setup.tyres.map((tyre) =>
    boundedInputs(tyre.car, tyre.tyre).filter(({ input }) => !isBernoulli(tyre, input)),
  );
  const values = bounded.map((inputs) => inputs.map(() => new Float64Array(runs)));
  for (let block = 0; block < BLOCKS; block++) {
    drawBlock(setup, seed, block, BLOCK, room);
    evaluateBlock(setup, room, BLOCK);
    setup.tyres.forEach((_, i) => {
      const table = room.tables[i]!;
      const { capacity } = table;
      heights[i]!.set(table.requiredHeight.subarray(tub * capacity, tub * capacity + BLOCK), block * BLOCK);
      bounded[i]!.forEach(({ group, index }, k) => {
        values[i]![k]!.set(room.columns[i]![group][index]!.subarray(0, BLOCK), block * BLOCK);
      });
    });
  }
  setup.tyres.forEach((tyre, i) => {
    const limit = heights[i]!.toSorted()[Math.floor((1 - TAIL) * runs)]!;
    bounded[i]!.forEach(({ input }, k) => {
      const places: number[] = [];
      for (let run = 0; run < runs; run++) {
        if (heights[i]![run]! >= limit) places.push(cumulative(input.law, values[i]![k]![run]!));
      }
      places.sort((a, b) => a - b);
      const middle = places[places.length >> 1] ?? 0.5;
      if (middle > END) found.push({ tyre: tyre.name, label: input.label, end: 'high' });
      if (middle < 1 - END) found.push({ tyre: tyre.name, label: input.label, end: 'low' });
    });
  });
  return found;
}

interface BoundedInput {
  group: 'car' | 'tyre';
  index: number;
  input: UncertainInput;
}

function boundedInputs(car: readonly UncertainInput[], tyre: readonly UncertainInput[]): BoundedInput[] {
  const all: BoundedInput[] = [
    ...CAR_INPUTS.map((_, index): BoundedInput => ({ group: 'car', index, input: car[index]! })),
    ...TYRE_INPUTS.map((_, index): BoundedInput => ({ group: 'tyre', index, input: tyre[index]! })),
  ];
  return all.filter(({ input }) => isSpread(input.law) && isBounded(input.law));
}
