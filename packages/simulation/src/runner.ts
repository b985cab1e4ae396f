import type { Case } from '@tubgap/casefile';
import { BLOCK, SEEN_FROM } from '@tubgap/statistics';
import { fillSettled } from './draws.ts';
import { type Centres, drawMixture, NO_CENTRES, plainRatios } from './importance/mixture.ts';
import { type NormalSpace, normalSpace } from './importance/normal-space.ts';
import { emptyWeightedTallies, type WeightedTallies, weighBlock } from './importance/weighted-risk.ts';
import { type BlockOutcome, readBlock } from './outcome.ts';
import { type BlockRoom, drawBlock, evaluateBlock } from './run-risk.ts';
import { countBlock, type RunTallies } from './run-tallies.ts';
import type { CaseSetup } from './setup.ts';

/** Weighted blocks that a sample has at most: enough for 10 % at one in a million on the cases tried. */
const TAIL_BLOCKS = 32;
/** Weighted blocks of a case's sample: no more than it allows plain ones, so that a case of few draws is soon done. */
export const weightedBlocks = ({ simulation }: Case): number =>
  Math.min(TAIL_BLOCKS, Math.ceil(simulation.draws / BLOCK));
/** Blocks of a round: a case's plain runs are a whole number of rounds, or all that it allows. */
export const ROUND_BLOCKS = 64;
/** Weighted blocks whose sums are added up as one: the order in which fractions are added is the same everywhere. */
const TAIL_PART = 2;

/** Drawn plainly, or moved to where touches are and then weighed. */
export type DrawnBy = 'plain' | 'weighted';

/** Before the names of the streams of each kind of draws. */
const STREAMS: Readonly<Record<DrawnBy, string>> = { plain: '', weighted: 'tail/' };

/** The draws that a case is judged by, whatever is asked. */
export interface Sample {
  seed: number;
  /** Plain draws in all: the last block may be short. */
  draws: number;
  /** Weighted draws come from them, plain ones are told apart by them. */
  centres: Centres;
}

/** Some of its blocks, `firstBlock` up to but not including `endBlock`. */
export interface BlockRange {
  drawnBy: DrawnBy;
  firstBlock: number;
  endBlock: number;
}

/** One block of draws, as they fill the room of a setup. */
export interface SampledBlock {
  seed: number;
  prefix: string;
  block: number;
  count: number;
  /** 1 for plain draws, else plain density over the mixture's. */
  weights: Float64Array;
  /** 1 for draws that lie where the mixture leads to, else 0: there weights are small and may speak. */
  seen: Uint8Array;
  /** Of weighted draws the standard normal numbers of each stream; undefined for plain ones. */
  normals: ReadonlyMap<string, Float64Array> | undefined;
}

const ranges = (end: number, step: number): [number, number][] =>
  Array.from({ length: Math.ceil(end / step) }, (_, i) => [i * step, Math.min(end, (i + 1) * step)]);

/** The first weighted blocks, in the parts whose sums are added up in their order. */
export const weightedParts = (blocks: number): BlockRange[] =>
  ranges(blocks, TAIL_PART).map(([firstBlock, endBlock]) => ({ drawnBy: 'weighted', firstBlock, endBlock }));

/** Draws one block of a sample into a room. */
function sampleBlock(
  setup: CaseSetup,
  space: NormalSpace,
  { seed, draws, centres }: Sample,
  drawnBy: DrawnBy,
  block: number,
  room: BlockRoom,
): SampledBlock {
  const prefix = STREAMS[drawnBy];
  const everywhere = () => true;
  if (drawnBy === 'plain') {
    const count = Math.min(BLOCK, draws - block * BLOCK);
    drawBlock(setup, seed, block, count, room, prefix);
    const ratios = plainRatios(space, centres, everywhere, seed, prefix, block, count);
    const seen = Uint8Array.from(ratios, (ratio) => (ratio < SEEN_FROM ? 0 : 1));
    const weights = new Float64Array(count).fill(1);
    return { seed, prefix, block, count, weights, seen, normals: undefined };
  }
  const weights = new Float64Array(BLOCK);
  fillSettled(setup.tyres, room.columns);
  const numbers = drawMixture(space, centres, everywhere, seed, prefix, block, BLOCK, room, weights);
  const seen = Uint8Array.from(weights, (weight) => (weight > 1 / SEEN_FROM ? 0 : 1));
  const normals = new Map(space.directions.map(({ stream }, d) => [stream, numbers[d]!]));
  return { seed, prefix, block, count: BLOCK, weights, seen, normals };
}

/**
 * Draws some blocks of a sample one after another, runs them through a setup, and shows each to `visit` while it
 * stands in the room. The one loop over draws of runs: what is asked of them is asked in `visit`.
 * @throws ModelRangeError when a draw leaves what the model knows
 */
export function visitBlocks(
  setup: CaseSetup,
  space: NormalSpace,
  sample: Sample,
  { drawnBy, firstBlock, endBlock }: BlockRange,
  room: BlockRoom,
  visit: (outcome: BlockOutcome, drawn: SampledBlock) => void,
): void {
  for (let block = firstBlock; block < endBlock; block++) {
    const drawn = sampleBlock(setup, space, sample, drawnBy, block, room);
    evaluateBlock(setup, room, drawn.count);
    visit(readBlock(setup, room, drawn.count), drawn);
  }
}

/** The mixture by which runs are told apart: those where it leads to, and the others. */
export interface Seeing {
  space: NormalSpace;
  centres: Centres;
}

/**
 * Run risk: one run per sampled car, blocks `firstBlock` up to but not including `endBlock` of `draws` in all.
 * Adds to `tallies`; blocks may be counted anywhere, in any order.
 * @param seeing  the mixture of the weighted draws; none: it leads nowhere
 * @param look  called with each block while it stands in the room
 */
export function tallyRuns(
  setup: CaseSetup,
  seed: number,
  draws: number,
  firstBlock: number,
  endBlock: number,
  room: BlockRoom,
  tallies: RunTallies,
  seeing: Seeing = { space: { directions: [] }, centres: NO_CENTRES },
  look: (outcome: BlockOutcome, block: number) => void = () => {},
): void {
  const { space, centres } = seeing;
  const range: BlockRange = { drawnBy: 'plain', firstBlock, endBlock };
  visitBlocks(setup, space, { seed, draws, centres }, range, room, (outcome, { seen, block }) => {
    countBlock(outcome, seen, tallies);
    look(outcome, block);
  });
}

/**
 * Weighted runs: where touches are rare, draws are moved to where they happen and each counts with its weight. One set
 * answers every tyre, tub and height at once.
 * @param range  the part of the sample, see `weightedParts`
 * @param look  called with each block while it stands in the room
 */
export function mixtureRuns(
  setup: CaseSetup,
  centres: Centres,
  seed: number,
  range: BlockRange,
  room: BlockRoom,
  space: NormalSpace = normalSpace(setup),
  look: () => void = () => {},
): WeightedTallies {
  const tallies = emptyWeightedTallies(setup);
  visitBlocks(setup, space, { seed, draws: 0, centres }, range, room, (outcome, { weights }) => {
    weighBlock(outcome, weights, tallies);
    look();
  });
  return tallies;
}
