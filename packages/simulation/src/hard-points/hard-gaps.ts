import type { Case } from '@tubgap/casefile';
import { fillHardGaps, type HardGapTable } from '@tubgap/core';
import { BLOCK } from '@tubgap/statistics';
import { fillSettled } from '../draws.ts';
import { type Centres, drawMixture, plainRatios } from '../importance/mixture.ts';
import { normalSpace } from '../importance/normal-space.ts';
import { type BlockRoom, createBlockRoom, drawBlock, evaluateBlock } from '../run-risk.ts';
import type { CaseSetup } from '../setup.ts';

/** Plain runs that medians and angles come from, and weighted ones for what is rare. */
const PLAIN_BLOCKS = 16;
const WEIGHTED_BLOCKS = 16;

/** Gaps of one tyre's runs to one hard point. */
export interface HardRuns {
  /** Plain runs: smallest gap over the moments of a run, m, its hub angle, and the moment by index into MOMENTS. */
  gap: Float64Array;
  angle: Float64Array;
  moment: Uint8Array;
  /** Gaps of the weighted runs; their weights are the same for every tyre and point. */
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
  /** Of the plain runs, the density of the mixture over the plain one. */
  ratios: Float64Array;
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

const emptyRuns = (): HardRuns => ({
  gap: new Float64Array(PLAIN_BLOCKS * BLOCK),
  angle: new Float64Array(PLAIN_BLOCKS * BLOCK),
  moment: new Uint8Array(PLAIN_BLOCKS * BLOCK),
  weightedGap: new Float64Array(WEIGHTED_BLOCKS * BLOCK),
});

/** Gaps of a filled block, one tyre. */
function blockGaps(setup: CaseSetup, tyre: number, room: BlockRoom, table: HardGapTable): void {
  fillHardGaps(setup.clearance, setup.tyres[tyre]!.setup, room.columns[tyre]!, BLOCK, table);
}

/** Adds one evaluated block's touches at the pick, the tub being the only one of the setup. */
function addTouches(
  setup: CaseSetup,
  topHeight: number,
  room: BlockRoom,
  weights: Float64Array,
  total: NonNullable<HardPointInspection['atPick']>,
): void {
  const { reserve, hardPoints } = setup.clearance;
  room.tables.forEach((table, i) => {
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
  const tub = all.clearance.tubs[place?.tub ?? 0]!;
  const setup = {
    ...all,
    lowestHeights: [all.lowestHeights[place?.tub ?? 0]!],
    clearance: { ...all.clearance, tubs: [tub] },
  };
  const { hardPoints } = setup.clearance;
  const space = normalSpace(setup);
  const room = createBlockRoom(setup);
  const runs = hardPoints.map(() => setup.tyres.map(emptyRuns));
  const ratios = new Float64Array(PLAIN_BLOCKS * BLOCK);
  const weights = new Float64Array(WEIGHTED_BLOCKS * BLOCK);
  const atPick = {
    touches: hardPoints.map(() => setup.tyres.map((): HardTouches => ({ alone: 0, together: 0 }))),
    all: setup.tyres.map(() => 0),
  };
  const table: HardGapTable = {
    capacity: BLOCK,
    gap: new Float64Array(hardPoints.length * BLOCK),
    angle: new Float64Array(hardPoints.length * BLOCK),
    moment: new Uint8Array(hardPoints.length * BLOCK),
  };
  for (let block = 0; block < PLAIN_BLOCKS; block++) {
    drawBlock(setup, seed, block, BLOCK, room);
    ratios.set(
      plainRatios(space, centres, () => true, seed, '', block, BLOCK),
      block * BLOCK,
    );
    setup.tyres.forEach((_, i) => {
      blockGaps(setup, i, room, table);
      runs.forEach((own, h) => {
        const from = h * BLOCK;
        own[i]!.gap.set(table.gap.subarray(from, from + BLOCK), block * BLOCK);
        own[i]!.angle.set(table.angle.subarray(from, from + BLOCK), block * BLOCK);
        own[i]!.moment.set(table.moment.subarray(from, from + BLOCK), block * BLOCK);
      });
    });
  }
  for (let block = 0; block < WEIGHTED_BLOCKS; block++) {
    const own = weights.subarray(block * BLOCK, (block + 1) * BLOCK);
    fillSettled(setup.tyres, room.columns);
    drawMixture(space, centres, () => true, seed, 'tail/', block, BLOCK, room, own);
    setup.tyres.forEach((_, i) => {
      blockGaps(setup, i, room, table);
      runs.forEach((tyres, h) => {
        tyres[i]!.weightedGap.set(table.gap.subarray(h * BLOCK, (h + 1) * BLOCK), block * BLOCK);
      });
    });
    if (place === undefined) continue;
    evaluateBlock(setup, room, BLOCK);
    addTouches(setup, place.topHeight, room, own, atPick);
  }
  return { runs, ratios, weights, atPick: place === undefined ? undefined : atPick };
}
