import type { Case } from '@tubgap/casefile';
import { BLOCK, sampleQuantile } from '@tubgap/uncertainty';
import { type DecidingBound, decidingBounds } from './bound-tail.ts';
import { type GapFigures, lookAtGaps } from './look.ts';
import { lookAtOutlines, type Outlines } from './outlines.ts';
import type { Pick } from './pick.ts';
import { type BlockRoom, drawBlock, evaluateBlock } from './run-risk.ts';
import { type CaseSetup, caseSetup } from './setup.ts';
import { lookAtShares, type ShareFigures } from './shares.ts';
import { findTolerances, type Tolerances } from './tolerances.ts';

/** How much larger the growth is taken to see what it would ask for. */
export const LARGER_GROWTH = 1.25;
const GROWTH_BLOCKS = 8;

/** What is looked at once the picks are known. Each look has draws of its own and can be worked out anywhere. */
export type Look =
  /** Gaps of every tyre and of all, in every tub at its heights, m. */
  | { kind: 'gaps'; heights: readonly (readonly number[])[] }
  | { kind: 'shares'; picks: readonly Pick[] }
  | { kind: 'larger growth' }
  | { kind: 'bounds'; tub: number }
  | { kind: 'outlines'; picks: readonly Pick[]; chosen: number | undefined }
  | { kind: 'tolerances'; picks: readonly Pick[]; chosen: number | undefined };

export type LookResult =
  /** [tyre or, last, all tyres][tub][height] */
  | { kind: 'gaps'; gaps: GapFigures[][][] }
  /** [tub][tyre]; empty for a tub without a height. */
  | { kind: 'shares'; shares: ShareFigures[][][] }
  /** Top height that a larger growth asks for on top, a tub, m. */
  | { kind: 'larger growth'; heights: number[] }
  | { kind: 'bounds'; bounds: DecidingBound[] }
  | { kind: 'outlines'; outlines: Outlines }
  | { kind: 'tolerances'; tolerances: Tolerances | undefined };

/** Works out one look at a case. @throws ModelRangeError when a draw leaves what the model knows */
export function performLook(source: Case, setup: CaseSetup, room: BlockRoom, look: Look): LookResult {
  const { seed } = source.simulation;
  switch (look.kind) {
    case 'gaps':
      return { kind: 'gaps', gaps: lookAtGaps(setup, seed, look.heights, room) };
    case 'shares':
      return { kind: 'shares', shares: sharesAtPicks(setup, seed, look.picks, room) };
    case 'larger growth':
      return { kind: 'larger growth', heights: heightForLargerGrowth(source, setup, room) };
    case 'bounds':
      return { kind: 'bounds', bounds: decidingBounds(setup, seed, look.tub, room) };
    case 'outlines':
      return { kind: 'outlines', outlines: lookAtOutlines(setup, seed, look.picks, look.chosen) };
    case 'tolerances':
      return { kind: 'tolerances', tolerances: findTolerances(source, setup, look.picks, look.chosen) };
  }
}

function sharesAtPicks(
  setup: CaseSetup,
  seed: number,
  picks: readonly Pick[],
  room: BlockRoom,
): ShareFigures[][][] {
  return picks.map(({ height }, t) =>
    height === undefined
      ? []
      : setup.tyres.map((_, i) =>
          lookAtShares(setup, seed, i, setup.clearance.tubs[t]!, height.topHeight, room),
        ),
  );
}

/** 99th percentile of the required height over all tyres, m, a tub. */
function highHeights(setup: CaseSetup, seed: number, room: BlockRoom): number[] {
  const runs = GROWTH_BLOCKS * BLOCK;
  const worst = setup.clearance.tubs.map(() => new Float64Array(runs).fill(Number.NEGATIVE_INFINITY));
  for (let block = 0; block < GROWTH_BLOCKS; block++) {
    drawBlock(setup, seed, block, BLOCK, room);
    evaluateBlock(setup, room, BLOCK);
    for (const table of room.tables) {
      worst.forEach((heights, t) => {
        for (let run = 0; run < BLOCK; run++) {
          const place = block * BLOCK + run;
          heights[place] = Math.max(heights[place]!, table.requiredHeight[t * table.capacity + run]!);
        }
      });
    }
  }
  return worst.map((heights) => sampleQuantile(heights.sort(), 0.99));
}

function heightForLargerGrowth(source: Case, setup: CaseSetup, room: BlockRoom): number[] {
  const { seed } = source.simulation;
  const plain = highHeights(setup, seed, room);
  return highHeights(caseSetup(source, LARGER_GROWTH), seed, room).map((height, t) => height - plain[t]!);
}
