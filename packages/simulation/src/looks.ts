import type { Case } from '@tubgap/casefile';
import { type DecidingBound, decidingBounds } from './bound-tail.ts';
import { type GapFigures, lookAtGaps } from './look.ts';
import { lookAtOutlines, type OutlinePlace, type Outlines } from './outlines.ts';
import type { Pick } from './pick.ts';
import type { BlockRoom } from './run-risk.ts';
import type { CaseSetup } from './setup.ts';
import { lookAtShares, type ShareFigures } from './shares.ts';
import { findTolerances, type Tolerances } from './tolerances.ts';

/** What is looked at once the picks are known. Each look has draws of its own and can be worked out anywhere. */
export type Look =
  /** Gaps of every tyre and of all, in every tub at its heights, m. */
  | { kind: 'gaps'; heights: readonly (readonly number[])[] }
  | { kind: 'shares'; picks: readonly Pick[] }
  | { kind: 'bounds'; tub: number }
  | { kind: 'outlines'; place: OutlinePlace | undefined }
  | { kind: 'tolerances'; picks: readonly Pick[]; chosen: number | undefined };

export type LookResult =
  /** [tyre or, last, all tyres][tub][height] */
  | { kind: 'gaps'; gaps: GapFigures[][][] }
  /** [tub][tyre]; empty for a tub without a height. */
  | { kind: 'shares'; shares: ShareFigures[][][] }
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
    case 'bounds':
      return { kind: 'bounds', bounds: decidingBounds(setup, seed, look.tub, room) };
    case 'outlines':
      return { kind: 'outlines', outlines: lookAtOutlines(setup, seed, look.place) };
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
