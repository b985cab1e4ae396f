import { normalSpace } from '../importance/normal-space.ts';
import { createBlockRoom } from '../run-risk.ts';
import type { BlockRange, Sample } from '../runner.ts';
import { visitBlocks } from '../runner.ts';
import type { CaseSetup } from '../setup.ts';
import { type AskedGaps, openAnswers, type RowAnswers } from './row-answers.ts';
import { type RowInput, rowInputs } from './row-inputs.ts';

/** One block of drawn runs, all that is told of them. */
export interface DrawnRows {
  block: number;
  count: number;
  /** 1 for plain draws, else plain density over the mixture's. */
  weights: Float64Array;
  /** [tyre] */
  tyres: {
    /** [input of `rowInputs`][run], SI; belongs to the room and holds until the next block. */
    inputs: Float64Array[];
    /** Axle above the track where the tub's place was set, m. */
    axleHeights: Float64Array;
    answers: RowAnswers;
  }[];
}

/**
 * Shows the draws of a case block by block, with what the model says of every run: the draws of a pick, whole heights in
 * all of its tubs.
 * @param visit  called with each block while it stands in the room
 * @throws ModelRangeError when a draw leaves what the model knows
 */
export function visitRows(
  setup: CaseSetup,
  sample: Sample,
  range: BlockRange,
  asked: AskedGaps | undefined,
  visit: (rows: DrawnRows) => void,
): void {
  const room = createBlockRoom(setup);
  const answersOf = openAnswers(setup, asked);
  const inputs = rowInputs(setup);
  const valuesOf = (tyre: number, { group, index }: RowInput) => room.columns[tyre]![group][index]!;
  visitBlocks(setup, normalSpace(setup), sample, range, room, (_, { block, count, weights }) => {
    visit({
      block,
      count,
      weights,
      tyres: setup.tyres.map((_, i) => ({
        inputs: inputs.map((input) => valuesOf(i, input)),
        axleHeights: room.axleHeights,
        answers: answersOf(i, room.columns[i]!, room.axleHeights, room.tables[i]!, count),
      })),
    });
  });
}
