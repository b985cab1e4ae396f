import type { Case } from '@tubgap/casefile';
import type { DecidingBound } from '../deciding-bounds.ts';
import type { HardFigures } from '../hard-points/hard-figures.ts';
import { gapHeights } from '../heights.ts';
import type { GapFigures } from '../inspect-gaps.ts';
import type { Inspection } from '../inspections.ts';
import { type KeptSample, keepSample } from '../kept-sample.ts';
import type { OutlinePlace, Outlines } from '../outlines.ts';
import { type ShownRun, shownRuns } from '../replay/run-states.ts';
import type { CaseSetup } from '../setup.ts';
import type { ShareFigures } from '../shares.ts';
import type { Findings, TaskResult } from '../tasks.ts';
import type { Counted, Decision } from './decision.ts';

/** What is looked at closely once the decision is known. */
export interface Looked {
  /** [tyre or, last, all tyres][tub][height]; undefined where nobody looked, see `gapHeights`. */
  gaps: (GapFigures | undefined)[][][];
  /** What is known of every hard point: [point][tyre]. */
  hardPoints: HardFigures[][];
  /** [tub][tyre]; empty for a tub without a height. */
  shares: ShareFigures[][][];
  bounds: DecidingBound[];
  outlines: Outlines;
  /** [tyre], in the tub to build as it is set out; empty when there is none. */
  shownRuns: ShownRun[][];
  /** All that the risks follow from. */
  sample: KeptSample;
}

/** What is looked at closely whatever the pick. @param place  of the tub to build */
export function inspectionTasks({ picks, chosen }: Counted, place: OutlinePlace | undefined): Inspection[] {
  return [
    { kind: 'outlines', place },
    { kind: 'shares', picks },
    { kind: 'bounds', tub: chosen ?? 0 },
  ];
}

type ResultOf<Kind extends TaskResult['kind']> = Extract<TaskResult, { kind: Kind }>;

/** The result of the one task of a kind; undefined when there was none. */
export const only = <Kind extends TaskResult['kind']>(
  results: readonly TaskResult[],
  kind: Kind,
): ResultOf<Kind> | undefined => results.find((result): result is ResultOf<Kind> => result.kind === kind);

export function closeLooks(
  { heights: given }: Case,
  { heights, chosen, pickGaps }: Decision,
  setup: CaseSetup,
  found: Findings,
  place: OutlinePlace | undefined,
  results: readonly TaskResult[],
): Looked & { pickGaps: Decision['pickGaps'] } {
  const named = only(results, 'named runs')?.named ?? [];
  const { gaps } = only(results, 'gaps')!;
  const looked = heights.map((list) => gapHeights(list, given));
  return {
    gaps: gaps.map((tubs) =>
      tubs.map((list, t) => heights[t]!.map((height) => list[looked[t]!.indexOf(height)])),
    ),
    pickGaps: gaps.map((tubs, row) =>
      tubs.map((list, t) => (t === chosen ? pickGaps[row]![t] : list[looked[t]!.length])),
    ),
    shares: only(results, 'shares')?.shares ?? [],
    bounds: only(results, 'bounds')?.bounds ?? [],
    outlines: only(results, 'outlines')!.outlines,
    shownRuns: place === undefined ? [] : shownRuns(setup, place, named),
    hardPoints: only(results, 'hard points')?.figures ?? [],
    sample: keepSample(found, named),
  };
}
