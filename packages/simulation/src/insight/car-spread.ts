import { BLOCK, weightsSuffice } from '@tubgap/statistics';
import { SIXTEENTH } from '@tubgap/units';
import type { DrawColumns } from '../draws.ts';
import { stepAt } from '../heights.ts';
import type { Centres } from '../importance/mixture.ts';
import { normalSpace } from '../importance/normal-space.ts';
import { tyreResponse } from '../importance/response.ts';
import { focusOn } from '../replay/focus.ts';
import { createBlockRoom } from '../run-risk.ts';
import { visitBlocks } from '../runner.ts';
import type { CaseSetup } from '../setup.ts';

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

/** Weighted draws, each a car in one of its runs. */
interface CarRuns {
  weights: Float64Array;
  /** Height that the car needs in a run with everything that changes from run to run at its middle, m. */
  middle: Float64Array;
  touches: Uint8Array;
}

/**
 * Splits a run risk into that of the worst cars and of the rest. Cars are ranked by the height they need in a run with
 * everything that changes from run to run at its middle, so that the split is not made by the touches it is to show.
 * The draws are those of the weighted run risk: the two parts add up to it.
 * @param topHeight  m
 * @param blocks  weighted blocks, as many as the run risk has
 * @returns null where too few draws touch to tell: the touches' weights then are worth fewer than a risk needs to speak
 */
export function findCarSpread(
  setup: CaseSetup,
  centres: Centres,
  seed: number,
  tyre: number,
  tub: number,
  topHeight: number,
  blocks: number,
): CarSpread | null {
  return split(weightedRuns(setup, centres, seed, tyre, tub, topHeight, blocks));
}

function weightedRuns(
  whole: CaseSetup,
  centres: Centres,
  seed: number,
  tyre: number,
  tub: number,
  topHeight: number,
  blocks: number,
): CarRuns {
  const { setup } = focusOn(whole, { tub });
  const space = normalSpace(setup);
  const room = createBlockRoom(setup);
  const ranking = tyreResponse(setup, tyre, 0);
  const step = stepAt(setup.lowestHeights[0]!, topHeight);
  // Only whether a run needs more than this is asked; the ranking has a table of its own.
  const asked = Float64Array.of(setup.lowestHeights[0]! + step * SIXTEENTH);
  room.floors = setup.tyres.map(() => asked);
  const runs: CarRuns = {
    weights: new Float64Array(blocks * BLOCK),
    middle: new Float64Array(blocks * BLOCK),
    touches: new Uint8Array(blocks * BLOCK),
  };
  const range = { drawnBy: 'weighted' as const, firstBlock: 0, endBlock: blocks };
  visitBlocks(setup, space, { seed, draws: 0, centres }, range, room, (outcome, { block, weights }) => {
    const at = block * BLOCK;
    runs.weights.set(weights, at);
    for (let run = 0; run < BLOCK; run++) {
      runs.touches[at + run] = outcome.steps[tyre]![0]![run]! > step ? 1 : 0;
    }
    copyFixed(setup, room.columns, ranking.columns);
    runs.middle.set(ranking.evaluate(BLOCK).subarray(0, BLOCK), at);
  });
  return runs;
}

function copyFixed(setup: CaseSetup, from: readonly DrawColumns[], to: readonly DrawColumns[]): void {
  setup.tyres.forEach((own, i) => {
    own.car.forEach((input, c) => {
      if (input.each === 'car') to[i]!.car[c]!.set(from[i]!.car[c]!);
    });
    own.tyre.forEach((input, c) => {
      if (input.each === 'car') to[i]!.tyre[c]!.set(from[i]!.tyre[c]!);
    });
  });
}

function split({ weights, middle, touches }: CarRuns): CarSpread | null {
  const order = Array.from(middle.keys()).sort((a, b) => middle[b]! - middle[a]! || a - b);
  // Weights add up to the number of draws but for chance, and the run risk is taken of that number.
  const total = weights.length;
  let taken = 0;
  let worst = 0;
  let rest = 0;
  let square = 0;
  for (const draw of order) {
    const touching = touches[draw] === 1 ? weights[draw]! : 0;
    square += touching * touching;
    if (taken < WORST * total) {
      taken += weights[draw]!;
      worst += touching;
    } else {
      rest += touching;
    }
  }
  if (!weightsSuffice(worst + rest, square) || taken >= total) return null;
  return {
    worstShare: taken / total,
    worst: worst / taken,
    rest: rest / (total - taken),
    worstTouches: worst / (worst + rest),
  };
}
