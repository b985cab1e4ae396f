import type { Case } from '@tubgap/casefile';
import { createRunTable, fillHardGaps, type HardGapTable } from '@tubgap/core';
import { BLOCK, sampleQuantile } from '@tubgap/statistics';
import type { Centres } from '../importance/mixture.ts';
import { normalSpace } from '../importance/normal-space.ts';
import { INSPECTION_BLOCKS, LOOK_RUNS } from '../inspect-gaps.ts';
import { focusOn } from '../replay/focus.ts';
import { type BlockRoom, createBlockRoom, evaluateTyre } from '../run-risk.ts';
import { type DrawnBy, visitBlocks } from '../runner.ts';
import { type CaseSetup, clearanceOf } from '../setup.ts';

/** Plain and weighted runs that what is rare comes from. */
const BLOCKS = 16;
/** Gaps are told where they are among so large a share of the smallest ones: nothing is asked of larger ones. */
const AMONG = 0.1;

/** Gaps of one tyre's runs to one hard point, m, smallest over the moments of a run. */
export interface HardRuns {
  /** The first plain runs, LOOK_RUNS of them: gap, its hub angle, and the moment by index into MOMENTS. */
  close: Omit<HardGapTable, 'capacity'>;
  /** All plain runs; Infinity for a gap that is none of the smallest. */
  gap: Float64Array;
  /** The same of the weighted runs; their weights are the same for every tyre and point. */
  weightedGap: Float64Array;
}

/** Weighted touches at the pick: sums of weights. */
export interface HardTouches {
  /** With this hard point and nothing else, and with it and something else. */
  alone: number;
  together: number;
}

/** Runs of every tyre seen from the hard points. */
export interface HardPointInspection {
  /** [point][tyre] */
  runs: HardRuns[][];
  /** Of the plain runs, 1 where the mixture leads to. */
  seen: Uint8Array;
  weights: Float64Array;
  /** At the pick, undefined without one: [point][tyre], and the weight of all touches, [tyre]. */
  atPick: { touches: HardTouches[][]; all: number[] } | undefined;
}

/** The pick at which touches are told apart. */
export interface HardPlace {
  tub: number;
  /** m */
  topHeight: number;
}

/** The first plain runs of every tyre at every hard point: [point][tyre]. */
function closeRuns(setup: CaseSetup, seed: number, room: BlockRoom, centres: Centres): HardRuns['close'][][] {
  const points = setup.clearance.hardPoints.length;
  const tables = setup.tyres.map(
    (): HardGapTable => ({
      capacity: LOOK_RUNS,
      gap: new Float64Array(points * LOOK_RUNS),
      angle: new Float64Array(points * LOOK_RUNS),
      moment: new Uint8Array(points * LOOK_RUNS),
    }),
  );
  const range = { drawnBy: 'plain' as const, firstBlock: 0, endBlock: INSPECTION_BLOCKS };
  const sample = { seed, draws: LOOK_RUNS, centres };
  visitBlocks(setup, normalSpace(setup), sample, range, room, (_, { block, count }) => {
    const from = block * BLOCK;
    tables.forEach(({ capacity, gap, angle, moment }, i) => {
      fillHardGaps(clearanceOf(setup, i), setup.tyres[i]!.setup, room.columns[i]!, count, {
        capacity,
        gap: gap.subarray(from),
        angle: angle.subarray(from),
        moment: moment.subarray(from),
      });
    });
  });
  return setup.clearance.hardPoints.map((_, h) =>
    tables.map(({ gap, angle, moment }) => {
      const [from, end] = [h * LOOK_RUNS, (h + 1) * LOOK_RUNS];
      return {
        gap: gap.subarray(from, end),
        angle: angle.subarray(from, end),
        moment: moment.subarray(from, end),
      };
    }),
  );
}

/** Gaps of a visited block's runs to one point, m, where they are below `most`: as the kernel tells those below a reserve. */
function gapsBelow(setup: CaseSetup, point: number, tyre: number, most: number) {
  const alone: CaseSetup = {
    ...setup,
    lowestHeights: [],
    tyres: setup.tyres.map((own) => ({ ...own, run: { ...own.run, reserve: most } })),
    clearance: { ...setup.clearance, tubs: [], hardPoints: [setup.clearance.hardPoints[point]!] },
  };
  const tables = setup.tyres.map((_, i) => createRunTable(clearanceOf(alone, i), BLOCK));
  return ({ floors: _, ...room }: BlockRoom, count: number): Float64Array => {
    evaluateTyre(alone, { ...room, tables }, tyre, count, true);
    return tables[tyre]!.hardGap.map((gap) => (gap < most ? gap : Number.POSITIVE_INFINITY));
  };
}

/** Adds one evaluated block's touches at the pick, the tub being the only one of the setup. */
function addTouches(
  setup: CaseSetup,
  topHeight: number,
  room: BlockRoom,
  weights: Float64Array,
  total: NonNullable<HardPointInspection['atPick']>,
): void {
  const { hardPoints } = setup.clearance;
  room.tables.forEach((table, i) => {
    const { reserve } = setup.tyres[i]!.run;
    for (let run = 0; run < BLOCK; run++) {
      const weight = weights[run]!;
      const inTub = table.requiredHeight[run]! > topHeight + 1e-9;
      let points = 0;
      for (let h = 0; h < hardPoints.length; h++) {
        if (table.hardGap[h * table.capacity + run]! < reserve) points++;
      }
      if (!inTub && points === 0) continue;
      total.all[i]! += weight;
      const shared = inTub || points > 1;
      for (let h = 0; h < hardPoints.length; h++) {
        if (table.hardGap[h * table.capacity + run]! >= reserve) continue;
        total.touches[h]![i]![shared ? 'together' : 'alone'] += weight;
      }
    }
  });
}

/**
 * Looks at every hard point from the runs of every tyre: plain runs for medians, weighted ones for what is rare.
 * @param place  pick at which touches of a point are told from those of the tub; none when there is no pick
 */
export function inspectHardPoints(
  source: Case,
  all: CaseSetup,
  centres: Centres,
  place?: HardPlace,
): HardPointInspection {
  const { seed } = source.simulation;
  const { setup } = focusOn(all, { tub: place?.tub ?? 0 });
  const { hardPoints } = setup.clearance;
  const space = normalSpace(setup);
  const room = createBlockRoom(setup);
  // Whether a run goes under the pick's height is all that is asked of the tub.
  const floor = Float64Array.of(place?.topHeight ?? Number.POSITIVE_INFINITY);
  room.floors = setup.tyres.map(() => floor);
  const runs = closeRuns(setup, seed, room, centres).map((tyres) =>
    tyres.map(
      (close): HardRuns => ({
        close,
        gap: new Float64Array(BLOCKS * BLOCK),
        weightedGap: new Float64Array(BLOCKS * BLOCK),
      }),
    ),
  );
  const seen = new Uint8Array(BLOCKS * BLOCK);
  const weights = new Float64Array(BLOCKS * BLOCK);
  const atPick = {
    touches: hardPoints.map(() => setup.tyres.map((): HardTouches => ({ alone: 0, together: 0 }))),
    all: setup.tyres.map(() => 0),
  };
  const told = runs.map((tyres, h) =>
    tyres.map(({ close }, i) =>
      gapsBelow(
        setup,
        h,
        i,
        Math.max(setup.tyres[i]!.run.reserve, sampleQuantile(close.gap.toSorted(), AMONG)),
      ),
    ),
  );
  const sample = { seed, draws: BLOCKS * BLOCK, centres };
  const visit = (drawnBy: DrawnBy): void =>
    visitBlocks(setup, space, sample, { drawnBy, firstBlock: 0, endBlock: BLOCKS }, room, (_, drawn) => {
      const from = drawn.block * BLOCK;
      runs.forEach((tyres, h) => {
        tyres.forEach(({ gap, weightedGap }, i) => {
          (drawnBy === 'plain' ? gap : weightedGap).set(told[h]![i]!(room, drawn.count), from);
        });
      });
      if (drawnBy === 'plain') {
        seen.set(drawn.seen, from);
        return;
      }
      weights.set(drawn.weights, from);
      if (place !== undefined) addTouches(setup, place.topHeight, room, drawn.weights, atPick);
    });
  visit('plain');
  visit('weighted');
  return { runs, seen, weights, atPick: place === undefined ? undefined : atPick };
}
