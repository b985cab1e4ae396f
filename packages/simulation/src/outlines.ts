import {
  type AngleTable,
  buildLoad,
  fillAngles,
  outlineRadius,
  standingOutline,
  staticLoadedRadius,
  tyreColumn,
} from '@tubgap/core';
import { BLOCK, sampleQuantile } from '@tubgap/statistics';
import { OUTLINE_ANGLES } from './replay/outline-cloud.ts';
import { createBlockRoom, drawBlock, fillBlockAxleHeights } from './run-risk.ts';
import { type CaseSetup, clearanceOf } from './setup.ts';

/**
 * Runs that the outlines come from, few enough to keep all their radii. A radius spreads by some 1/8 in: the percentile of
 * 99.9 is then known to 1/64 in, one standard error.
 */
const BLOCKS = 8;
const RUNS = BLOCKS * BLOCK;

const ANGLES = Float64Array.from(OUTLINE_ANGLES);
const RADIUS_QUANTILES = [0.5, 0.99, 0.999];
const GAP_QUANTILES = [0.05, 0.5, 0.95];

/** A tyre's outlines, m, at the angles of `Outlines`. */
export interface TyreOutlines {
  /** Axle above the track standing on this tyre, m: at build pressure if it is the build tyre, else at its own. */
  axleHeight: number;
  /** Body raised on the springs for this tyre, m, at its middle value. */
  rideHeightChange: number;
  /** Standing so: the bulge under the static load, no growth. At middle values. */
  standing: number[];
  /** [quantile][angle]: of the largest radius over the moments of a run, angle by angle. */
  quantiles: number[][];
}

/** Outlines of every tyre, and what happens in the tub to build as it is set out. */
export interface Outlines {
  runs: number;
  angles: number[];
  quantiles: number[];
  tyres: TyreOutlines[];
  /** Undefined when there is no tub to build. */
  gaps: PickAngleGaps | undefined;
}

/** Gap by hub angle with the limiting tyre in the tub as set out, m: [quantile][angle]. Hard points are left out. */
export interface PickAngleGaps {
  tyre: string;
  quantiles: number[];
  atRest: number[][];
  /** Smallest over the moments of the run, angle by angle. */
  inRun: number[][];
}

const createTable = (): AngleTable => ({
  capacity: RUNS,
  angles: ANGLES,
  values: new Float64Array(ANGLES.length * RUNS),
});

const blockPart = (table: AngleTable, block: number): AngleTable => ({
  ...table,
  values: table.values.subarray(block * BLOCK),
});

/** [quantile][angle]; sorts the table's values. */
function quantilesByAngle(table: AngleTable, quantiles: readonly number[]): number[][] {
  const sorted = Array.from(ANGLES, (_, k) => table.values.subarray(k * RUNS, (k + 1) * RUNS).sort());
  return quantiles.map((q) => sorted.map((values) => sampleQuantile(values, q)));
}

function tyreOutlines(setup: CaseSetup, index: number, radii: AngleTable): TyreOutlines {
  const tyre = setup.tyres[index]!;
  const builds = index === setup.buildIndex;
  const pressure = builds ? setup.buildPressure : tyre.centralTyre[tyreColumn('coldPressure')]!;
  const standing = standingOutline(tyre.centralTyre, tyre.setup, pressure, buildLoad(tyre.centralCar));
  return {
    axleHeight: builds
      ? setup.centralAxleHeight
      : staticLoadedRadius(tyre.centralCar, tyre.centralTyre, tyre.setup, pressure),
    rideHeightChange: tyre.centralTyre[tyreColumn('rideHeightChange')]!,
    standing: Array.from(ANGLES, (angle) => outlineRadius(standing, angle)),
    quantiles: quantilesByAngle(radii, RADIUS_QUANTILES),
  };
}

/** The tub to build as it is set out, m, and the tyre that decides it. */
export interface OutlinePlace {
  tub: number;
  topHeight: number;
  limitingTyre: string;
}

/** What is asked of the tub to build: it stands alone in `setup`. */
interface PickedTub {
  setup: CaseSetup;
  topHeight: number;
  limiting: number;
}

function pickedTub(setup: CaseSetup, place: OutlinePlace | undefined): PickedTub | undefined {
  if (place === undefined) return undefined;
  return {
    setup: { ...setup, clearance: { ...setup.clearance, tubs: [setup.clearance.tubs[place.tub]!] } },
    topHeight: place.topHeight,
    limiting: setup.tyres.findIndex((tyre) => tyre.name === place.limitingTyre),
  };
}

/**
 * Outlines of every tyre from 8,192 runs, the first ones of the run risk; and for the tub to build, as it is set out,
 * the gap by hub angle with the limiting tyre. Takes the same room whatever the number of draws.
 */
export function inspectOutlines(source: CaseSetup, seed: number, place: OutlinePlace | undefined): Outlines {
  const picked = pickedTub(source, place);
  const setup = picked?.setup ?? source;
  const room = createBlockRoom(setup);
  const radii = setup.tyres.map(createTable);
  const gaps = { atRest: createTable(), inRun: createTable() };
  for (let block = 0; block < BLOCKS; block++) {
    drawBlock(setup, seed, block, BLOCK, room);
    fillBlockAxleHeights(setup, room, BLOCK);
    setup.tyres.forEach((tyre, i) => {
      const asked = picked !== undefined && i === picked.limiting;
      fillAngles(
        clearanceOf(setup, i),
        tyre.setup,
        room.columns[i]!,
        room.axleHeights,
        BLOCK,
        blockPart(radii[i]!, block),
        asked
          ? {
              tub: setup.clearance.tubs[0]!,
              topHeight: picked.topHeight,
              atRest: blockPart(gaps.atRest, block),
              inRun: blockPart(gaps.inRun, block),
            }
          : undefined,
      );
    });
  }
  return {
    runs: RUNS,
    angles: [...ANGLES],
    quantiles: [...RADIUS_QUANTILES],
    tyres: setup.tyres.map((_, i) => tyreOutlines(setup, i, radii[i]!)),
    gaps: picked && {
      tyre: setup.tyres[picked.limiting]!.name,
      quantiles: [...GAP_QUANTILES],
      atRest: quantilesByAngle(gaps.atRest, GAP_QUANTILES),
      inRun: quantilesByAngle(gaps.inRun, GAP_QUANTILES),
    },
  };
}
