import type { Case } from '@tubgap/casefile';
import { type DecidingBound, decidingBounds } from './deciding-bounds.ts';
import { type GapFigures, inspectGaps } from './inspect-gaps.ts';
import { inspectOutlines, type OutlinePlace, type Outlines } from './outlines.ts';
import type { Pick } from './pick.ts';
import type { BlockRoom } from './run-risk.ts';
import type { CaseSetup } from './setup.ts';
import { inspectShares, type ShareFigures } from './shares.ts';
import { findTolerances, type Tolerances } from './tolerances.ts';

/** What is inspected once the picks are known. Each inspection has draws of its own and can be worked out anywhere. */
export type Inspection =
  /** Gaps of every tyre and of all, in every tub at its heights, m. */
  | { kind: 'gaps'; heights: readonly (readonly number[])[] }
  | { kind: 'shares'; picks: readonly Pick[] }
  | { kind: 'bounds'; tub: number }
  | { kind: 'outlines'; place: OutlinePlace | undefined }
  | { kind: 'tolerances'; picks: readonly Pick[]; chosen: number | undefined };

export type InspectionResult =
  /** [tyre or, last, all tyres][tub][height] */
  | { kind: 'gaps'; gaps: GapFigures[][][] }
  /** [tub][tyre]; empty for a tub without a height. */
  | { kind: 'shares'; shares: ShareFigures[][][] }
  | { kind: 'bounds'; bounds: DecidingBound[] }
  | { kind: 'outlines'; outlines: Outlines }
  | { kind: 'tolerances'; tolerances: Tolerances | undefined };

/** Works out one inspection of a case. @throws ModelRangeError when a draw leaves what the model knows */
export function inspectCase(
  source: Case,
  setup: CaseSetup,
  room: BlockRoom,
  inspection: Inspection,
): InspectionResult {
  const { seed } = source.simulation;
  switch (inspection.kind) {
    case 'gaps':
      return { kind: 'gaps', gaps: inspectGaps(setup, seed, inspection.heights, room) };
    case 'shares':
      return { kind: 'shares', shares: sharesAtPicks(setup, seed, inspection.picks, room) };
    case 'bounds':
      return { kind: 'bounds', bounds: decidingBounds(setup, seed, inspection.tub, room) };
    case 'outlines':
      return { kind: 'outlines', outlines: inspectOutlines(setup, seed, inspection.place) };
    case 'tolerances':
      return {
        kind: 'tolerances',
        tolerances: findTolerances(source, setup, inspection.picks, inspection.chosen),
      };
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
          inspectShares(setup, seed, i, setup.clearance.tubs[t]!, height.topHeight, room),
        ),
  );
}
