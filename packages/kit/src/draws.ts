import type { Case } from '@tubgap/casefile';
import { caseSetup, NO_CENTRES, performHere, pickSample, rowInputs, visitRows } from '@tubgap/simulation';
import { BLOCK } from '@tubgap/statistics';
import { indexOf } from './named.ts';

/** Some draws of one tyre, column by column; SI, one element a run. They hold until the next block is shown. */
export interface DrawnBlock {
  tyre: string;
  count: number;
  /** 1 for plain draws; weighted: to be counted by. */
  weights: Float64Array;
  /** By path: 'run.trapSpeed', 'tyres[].coldPressure'. */
  inputs: Readonly<Record<string, Float64Array>>;
  /** Lowest top height that leaves the gap to be kept, by tub; Infinity: no height does. */
  requiredHeight: Readonly<Record<string, Float64Array>>;
  /** At the hub angles asked for, in their order: smallest gap over the run. */
  gaps: Float64Array[];
}

/** How many draws, of which kind, and gaps that are told of each. */
export interface DrawsAsked {
  draws: number;
  /** Drawn from where touches are. */
  weighted?: boolean;
  /** Hub angles, rad, and the tub at its height, m. */
  gaps?: { tub: string; topHeight: number; angles: readonly number[] };
}

/**
 * Shows the simulated runs of a case, the very ones that `tubgap draws` writes.
 * @param visit  called with every block of every tyre
 * @throws ModelRangeError when a draw leaves what the model knows
 */
export async function eachBlock(
  source: Case,
  { draws, weighted = false, gaps }: DrawsAsked,
  visit: (block: DrawnBlock) => void,
): Promise<void> {
  const setup = caseSetup(source);
  const inputs = rowInputs(setup);
  const few = { ...source, simulation: { ...source.simulation, draws: BLOCK } };
  const centres = weighted ? (await pickSample(few, performHere(few), true)).centres : NO_CENTRES;
  const sample = { seed: source.simulation.seed, draws, centres };
  const range = {
    drawnBy: weighted ? 'weighted' : 'plain',
    firstBlock: 0,
    endBlock: Math.ceil(draws / BLOCK),
  } as const;
  const asked = gaps && { ...gaps, tub: indexOf(source.tubs, gaps.tub, 'tub') };
  visitRows(setup, sample, range, asked, ({ count, weights, tyres }) => {
    tyres.forEach(({ inputs: columns, answers }, i) => {
      visit({
        tyre: source.tyres[i]!.name,
        count,
        weights,
        inputs: Object.fromEntries(inputs.map(({ path }, k) => [path, columns[k]!])),
        requiredHeight: Object.fromEntries(
          source.tubs.map(({ name }, t) => [name, answers.tubs[t]!.requiredHeight]),
        ),
        gaps: answers.gaps.map(({ inRun }) => inRun),
      });
    });
  });
}
