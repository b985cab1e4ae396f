import { type AngleTable, evaluateRuns, fillAngles, fillGaps, fillMomentTable } from '@tubgap/core';
import { BLOCK } from '@tubgap/statistics';
import { clearWorst, takeRun } from '../count.ts';
import { fillSettled } from '../draws.ts';
import { type Centres, drawMixture, NO_CENTRES, plainRatios } from '../importance/mixture.ts';
import { type BlockRoom, createBlockRoom, fillBlockAxleHeights } from '../run-risk.ts';
import type { DrawnBy } from '../runner.ts';
import { clearanceOf } from '../setup.ts';
import { type StudyPoint, type StudySetup, studyPoints } from './study-point.ts';
import { setNormals } from './variant.ts';

/** Runs of one setup, one a car. */
export interface SetupRuns {
  /** Lowest heights of the tally that the run goes under the reserve at, and touches at: hard points and legs count. */
  steps: Uint16Array;
  contactSteps: Uint16Array;
  /** Smallest gap to the tub, m, with its hub angle, rad, and its moment's index; nothing in a setup that is not looked at. */
  gap: Float64Array;
  angle: Float64Array;
  moment: Uint8Array;
  /** Smallest gap over the asked hub angles, m; Infinity where none is asked. */
  atAngles: Float64Array;
}

/** The same cars, each once in every setup. */
export interface CarRuns {
  /** Of each car: 1 for plain draws, else plain density over the mixture's. */
  weights: Float64Array;
  /** Of each car: density of the mixture over the plain one. */
  ratios: Float64Array;
  /** m, that steps are counted from. */
  lowest: number;
  /** In the order of the setups. */
  setups: SetupRuns[];
}

/** Where the runs are looked at, and which they are. */
export interface CarRunsAsked {
  tyre: number;
  /** m, of the only tub of every setup. */
  topHeight: number;
  /** Hub angles, rad. */
  angles: Float64Array;
  blocks: number;
  /** Setups, from the first, whose gaps are looked at. */
  looked: number;
  drawnBy: DrawnBy;
  /** Of the mixture; plain cars tell by them where it does not lead to. */
  centres: Centres;
  /** Before the names of the streams: other names, other draws. */
  prefix: string;
}

const emptyRuns = (count: number): SetupRuns => ({
  steps: new Uint16Array(count),
  contactSteps: new Uint16Array(count),
  gap: new Float64Array(count),
  angle: new Float64Array(count),
  moment: new Uint8Array(count),
  atAngles: new Float64Array(count).fill(Number.POSITIVE_INFINITY),
});

const blank = (angles: Float64Array): AngleTable => ({
  capacity: BLOCK,
  angles,
  values: new Float64Array(angles.length * BLOCK),
});

/** Runs one filled block of a setup's tyre through the model. */
function takeBlock(
  { setup }: StudyPoint,
  room: BlockRoom,
  { tyre, topHeight, angles }: CarRunsAsked,
  from: number,
  isLooked: boolean,
  out: SetupRuns,
): void {
  const columns = room.columns[tyre]!;
  const table = room.tables[tyre]!;
  const tub = setup.clearance.tubs[0]!;
  const { setup: tyreSetup } = setup.tyres[tyre]!;
  const whole = clearanceOf(setup, tyre);
  fillBlockAxleHeights(setup, room, BLOCK);
  fillMomentTable(whole, columns.car, BLOCK, room.moments[tyre]!);
  evaluateRuns(
    whole,
    tyreSetup,
    columns.car,
    columns.tyre,
    room.moments[tyre]!,
    room.axleHeights,
    BLOCK,
    table,
  );
  for (let run = 0; run < BLOCK; run++) {
    clearWorst(room.worst);
    takeRun(setup, tyre, table, run, room.worst);
    out.steps[from + run] = room.worst.steps[0]!;
    out.contactSteps[from + run] = room.worst.contactSteps[0]!;
  }
  if (!isLooked) return;
  // Gaps are those to the tub: hard points get a look of their own.
  const clearance = { ...whole, hardPoints: [] };
  const found = {
    capacity: BLOCK,
    gap: out.gap.subarray(from, from + BLOCK),
    angle: out.angle.subarray(from, from + BLOCK),
    moment: out.moment.subarray(from, from + BLOCK),
  };
  fillGaps(clearance, tyreSetup, columns, room.axleHeights, BLOCK, [{ tub, heights: [topHeight] }], found);
  if (angles.length === 0) return;
  const gaps = { tub, topHeight, atRest: blank(angles), inRun: blank(angles) };
  fillAngles(clearance, tyreSetup, columns, room.axleHeights, BLOCK, blank(angles), gaps);
  for (let k = 0; k < angles.length; k++) {
    for (let run = 0; run < BLOCK; run++) {
      const gap = gaps.inRun.values[k * BLOCK + run]!;
      if (gap < out.atAngles[from + run]!) out.atAngles[from + run] = gap;
    }
  }
}

/**
 * Runs the same cars once through each setup: what is fixed for a car is drawn once, what changes from run to run anew in
 * every setup. Drawn about the centres of touches each car counts with its weight, which is the same in every setup.
 * @param setups  with one tub each and the same tyres; the centres are those of the first
 * @throws ModelRangeError when a run comes out as no number
 */
export function carRuns(setups: readonly StudySetup[], seed: number, asked: CarRunsAsked): CarRuns {
  const points = studyPoints(setups);
  const base = points[0]!;
  const rooms = points.map(({ setup }) => createBlockRoom(setup));
  const count = asked.blocks * BLOCK;
  const found: CarRuns = {
    weights: new Float64Array(count),
    ratios: new Float64Array(count),
    lowest: base.setup.lowestHeights[0]!,
    setups: points.map(() => emptyRuns(count)),
  };
  rooms.forEach(({ columns }, p) => {
    fillSettled(points[p]!.setup.tyres, columns);
  });
  const { directions } = base.space;
  const isFixed = (d: number): boolean => directions[d]!.fixedForCar;
  const { drawnBy, centres, prefix } = asked;
  for (let block = 0; block < asked.blocks; block++) {
    const cars = found.weights.subarray(block * BLOCK, (block + 1) * BLOCK);
    const from = drawnBy === 'plain' ? NO_CENTRES : centres;
    const numbers = drawMixture(base.space, from, isFixed, seed, prefix, block, BLOCK, rooms[0]!, cars);
    const ratios =
      drawnBy === 'plain'
        ? plainRatios(base.space, centres, isFixed, seed, prefix, block, BLOCK)
        : cars.map((weight) => 1 / weight);
    found.ratios.set(ratios, block * BLOCK);
    const fixed = new Map(
      directions.flatMap(({ stream }, d) => (isFixed(d) ? [[stream, numbers[d]!] as const] : [])),
    );
    points.forEach((point, p) => {
      setNormals(point.space.directions, fixed, { seed, prefix: `${prefix}${p}/`, block }, rooms[p]!);
      takeBlock(point, rooms[p]!, asked, block * BLOCK, p < asked.looked, found.setups[p]!);
    });
  }
  return found;
}
