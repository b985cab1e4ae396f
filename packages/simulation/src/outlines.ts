import {
  type AngleTable,
  buildLoad,
  type ClearanceState,
  carColumn,
  clearanceState,
  fillAngles,
  MOMENTS,
  outlineRadius,
  standingOutline,
  staticLoadedRadius,
  tyreColumn,
} from '@tubgap/core';
import { BLOCK, sampleQuantile } from '@tubgap/statistics';
import {
  type BlockRoom,
  createBlockRoom,
  drawBlock,
  evaluateBlock,
  fillBlockAxleHeights,
} from './run-risk.ts';
import type { CaseSetup } from './setup.ts';

/**
 * Runs that the outlines come from, few enough to keep all their radii. A radius spreads by some 1/8 in: the percentile of
 * 99.9 is then known to 1/64 in, one standard error.
 */
const BLOCKS = 8;
const RUNS = BLOCKS * BLOCK;

/** Hub angles of the outlines, rad: every 5° from −120° to 120°. */
const ANGLES = Float64Array.from({ length: 49 }, (_, k) => ((k - 24) * Math.PI) / 36);
const RADIUS_QUANTILES = [0.5, 0.99, 0.999];
const GAP_QUANTILES = [0.001, 0.05, 0.5, 0.95];
/** Places of the runs that are shown whole, among all by their required height. */
const SHOWN_RANKS = [0.5, 0.999];

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

/** One simulated run at its deciding moment, SI. */
export interface ShownRun {
  /** Share of runs that need less height. */
  rank: number;
  moment: string;
  requiredHeight: number;
  /** Smallest gap with the tub as set out, before the reserve is taken off, and its hub angle. */
  gap: number;
  tightAngle: number;
  /** Body down and axle forward from how the car stands on this tyre, m. */
  drop: number;
  forward: number;
  /** Centre of the tub's arc from the axle, m. */
  centreAhead: number;
  centreAbove: number;
  /** Outline, m, at the angles of `Outlines`. */
  radii: number[];
}

/** Outlines of every tyre, and what happens in the tub to build as it is set out. */
export interface Outlines {
  runs: number;
  angles: number[];
  quantiles: number[];
  tyres: TyreOutlines[];
  /** Undefined when there is no tub to build. */
  pick: { shown: ShownRun[][]; gaps: PickAngleGaps } | undefined;
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

/** One run of a filled block with every value kept, at the moment that decides its height. */
function runState(
  setup: CaseSetup,
  index: number,
  topHeight: number,
  run: number,
  moment: number,
  room: BlockRoom,
): ClearanceState {
  const tyre = setup.tyres[index]!;
  const build = setup.tyres[setup.buildIndex]!;
  const drawn = (columns: readonly Float64Array[]): Float64Array =>
    Float64Array.from(columns, (column) => column[run]!);
  return clearanceState({
    car: drawn(room.columns[index]!.car),
    tyre: drawn(room.columns[index]!.tyre),
    tyreSetup: tyre.setup,
    run: setup.clearance,
    build: {
      tyre: drawn(room.columns[setup.buildIndex]!.tyre),
      tyreSetup: build.setup,
      pressure: setup.buildPressure,
      axleHeight: room.axleHeights[run]!,
    },
    tub: setup.clearance.tubs[0]!,
    topHeight,
    reserve: setup.clearance.reserve,
    moment: MOMENTS[moment]!,
    growthFactor: setup.clearance.growthFactor,
  });
}

/** Required heights of all runs with one tyre, m, and their deciding moments. */
interface Needed {
  heights: Float64Array;
  moments: Uint8Array;
}

/** The runs at SHOWN_RANKS of one tyre in the only tub of `setup`. */
function shownRuns(
  setup: CaseSetup,
  seed: number,
  index: number,
  topHeight: number,
  needed: Needed,
  room: BlockRoom,
): ShownRun[] {
  const { heights, moments } = needed;
  const order = Array.from(heights.keys()).sort((a, b) => heights[a]! - heights[b]!);
  return SHOWN_RANKS.map((rank): ShownRun => {
    const place = order[Math.floor(rank * (RUNS - 1))]!;
    const run = place % BLOCK;
    drawBlock(setup, seed, Math.floor(place / BLOCK), BLOCK, room);
    fillBlockAxleHeights(setup, room, BLOCK);
    const state = runState(setup, index, topHeight, run, moments[place]!, room);
    const { car, tyre } = room.columns[index]!;
    const ride = tyre[tyreColumn('rideHeightChange')]![run]!;
    return {
      rank,
      moment: MOMENTS[moments[place]!]!,
      requiredHeight: state.requiredHeight,
      gap: state.gap,
      tightAngle: state.tightAngle,
      drop: state.bodyDrop + state.bump + ride,
      forward: state.forward + car[carColumn('axlePathSlope')]![run]! * ride,
      centreAhead: state.centreAhead,
      centreAbove: state.centreAbove,
      radii: Array.from(ANGLES, (angle) => outlineRadius(state.outline, angle)),
    };
  });
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
 * two whole runs of every tyre and the gap by hub angle with the limiting tyre. Takes the same room whatever the
 * number of draws.
 */
export function inspectOutlines(source: CaseSetup, seed: number, place: OutlinePlace | undefined): Outlines {
  const picked = pickedTub(source, place);
  const setup = picked?.setup ?? source;
  const room = createBlockRoom(setup);
  const radii = setup.tyres.map(createTable);
  const needed = setup.tyres.map(
    (): Needed => ({ heights: new Float64Array(RUNS), moments: new Uint8Array(RUNS) }),
  );
  const gaps = { atRest: createTable(), inRun: createTable() };
  for (let block = 0; block < BLOCKS; block++) {
    drawBlock(setup, seed, block, BLOCK, room);
    fillBlockAxleHeights(setup, room, BLOCK);
    setup.tyres.forEach((tyre, i) => {
      const asked = picked !== undefined && i === picked.limiting;
      fillAngles(
        setup.clearance,
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
    if (picked === undefined) continue;
    evaluateBlock(setup, room, BLOCK);
    room.tables.forEach((table, i) => {
      needed[i]!.heights.set(table.requiredHeight.subarray(0, BLOCK), block * BLOCK);
      needed[i]!.moments.set(table.tightMoment.subarray(0, BLOCK), block * BLOCK);
    });
  }
  return {
    runs: RUNS,
    angles: [...ANGLES],
    quantiles: [...RADIUS_QUANTILES],
    tyres: setup.tyres.map((_, i) => tyreOutlines(setup, i, radii[i]!)),
    pick: picked && {
      shown: needed.map((own, i) => shownRuns(setup, seed, i, picked.topHeight, own, room)),
      gaps: {
        tyre: setup.tyres[picked.limiting]!.name,
        quantiles: [...GAP_QUANTILES],
        atRest: quantilesByAngle(gaps.atRest, GAP_QUANTILES),
        inRun: quantilesByAngle(gaps.inRun, GAP_QUANTILES),
      },
    },
  };
}
