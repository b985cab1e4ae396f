import { dropAtMoment, forwardAtMoment } from './car/axle-way.ts';
import {
  fillMoments,
  HAPPENS,
  MOMENT_LENGTH,
  MOMENTS,
  MOMENTS_LENGTH,
  MOVING,
  type RunSetup,
  SPRING_FORCE,
  THRUST_SHARE,
} from './car/moments.ts';
import { STANCE_COLUMNS, staticLoadedRadius } from './car/stance.ts';
import { type HardPointFan, hardGap } from './clearance/hard-gap.ts';
import {
  fillRequiredHeight,
  NEEDED,
  NEEDED_ANGLE,
  NEEDED_CONTACT,
  NEEDED_LENGTH,
  NEEDED_WALL,
} from './clearance/required-height.ts';
import { roundFits } from './clearance/round-fits.ts';
import { CAR_INPUTS, carColumn, TYRE_INPUTS, tyreColumn } from './inputs.ts';
import { hardPointGap } from './tub/hardpoint.ts';
import type { Tub } from './tub/profile.ts';
import { fillInflated, INFLATED_LENGTH, type TyreSetup } from './tyre/inflated.ts';
import { fillLoadedTyre, GROWN, LOADED_LENGTH } from './tyre/loaded-tyre.ts';
import {
  fillLoadedOutline,
  fillRound,
  ROUND_LARGEST,
  ROUND_LENGTH,
  ROUND_WIDEST,
} from './tyre/moment-outline.ts';
import { fillLobe, fillOutlineGrid, LARGEST, LOBE_LENGTH, OUTLINE_LENGTH, WIDEST } from './tyre/outline.ts';

/** Everything of a case that no draw changes. */
export interface ClearanceSetup extends RunSetup {
  tubs: readonly Tub[];
  hardPoints: readonly HardPointFan[];
  /** Gap that must remain, m, ≥ 0. */
  reserve: number;
  /** On the growth of every tyre: 1 as modelled, 1.25 for the case of a growth one quarter larger. */
  growthFactor: number;
}

/** Answers of a block of runs with one tyre. Tables of tubs run tub by tub: place tub · capacity + run. */
export interface RunTable {
  capacity: number;
  /** H*, lowest top height above the track that keeps the reserve in every moment, m; Infinity: no height does. */
  requiredHeight: Float64Array;
  /** The same for reserve 0, m. */
  contactHeight: Float64Array;
  /** Hub angle of the deciding point, rad. */
  tightAngle: Float64Array;
  /** Deciding moment, index into MOMENTS. */
  tightMoment: Uint8Array;
  /** Wall of the tub that decides, index into WALLS. */
  tightWall: Uint8Array;
  /** Smallest gap to each hard point, m, where it can be below the reserve, else Infinity: place point · capacity + run. */
  hardGap: Float64Array;
}

/** An empty table for up to `capacity` runs. */
export function createRunTable(setup: ClearanceSetup, capacity: number): RunTable {
  const size = setup.tubs.length * capacity;
  return {
    capacity,
    requiredHeight: new Float64Array(size),
    contactHeight: new Float64Array(size),
    tightAngle: new Float64Array(size),
    tightMoment: new Uint8Array(size),
    tightWall: new Uint8Array(size),
    hardGap: new Float64Array(setup.hardPoints.length * capacity),
  };
}

const AIR_TEMPERATURE = carColumn('airTemperature');
const STATION_PRESSURE = carColumn('stationPressure');
const TOP_ERROR = carColumn('topHeightError');
const CENTRE_ERROR = carColumn('centreError');
const LOBE_HEIGHT = tyreColumn('lobeHeight');
const LOBE_ANGLE = tyreColumn('lobeAngle');
const RIDE_CHANGE = tyreColumn('rideHeightChange');

const car = new Float64Array(CAR_INPUTS.length);
const tyre = new Float64Array(TYRE_INPUTS.length);
const inflated = new Float64Array(INFLATED_LENGTH);
/** Of the run in hand: the tyre at each moment, body down and axle forward at it, where its top reaches, and their order. */
const loadedTyres = MOMENTS.map(() => new Float64Array(LOADED_LENGTH));
const rounds = MOMENTS.map(() => new Float64Array(ROUND_LENGTH));
const drops = new Float64Array(MOMENTS.length);
const lifts = new Float64Array(MOMENTS.length);
const forwards = new Float64Array(MOMENTS.length);
const tops = new Float64Array(MOMENTS.length);
const order = new Uint8Array(MOMENTS.length);
const outline = new Float64Array(OUTLINE_LENGTH);
const lobe = new Float64Array(LOBE_LENGTH);
const answer = new Float64Array(NEEDED_LENGTH);

function gather(columns: readonly Float64Array[], run: number, into: Float64Array): void {
  for (let c = 0; c < into.length; c++) into[c] = columns[c]![run]!;
}

/** Whether some columns have in a run what they have in the one before it; a NaN is never the same. */
function sameAsBefore(columns: readonly Float64Array[], which: readonly number[], run: number): boolean {
  for (const c of which) if (columns[c]![run]! !== columns[c]![run - 1]!) return false;
  return true;
}

/**
 * Static loaded radius of every run of a block, m: where the build tyre holds the axle when the tub's place is set.
 * @param carColumns  one array a CAR_INPUTS name, each of at least `count` draws
 * @param tyreColumns  the same for the build tyre
 */
export function fillAxleHeights(
  build: TyreSetup,
  pressure: number,
  carColumns: readonly Float64Array[],
  tyreColumns: readonly Float64Array[],
  count: number,
  axleHeights: Float64Array,
): void {
  for (let run = 0; run < count; run++) {
    if (
      run > 0 &&
      sameAsBefore(carColumns, STANCE_COLUMNS.car, run) &&
      sameAsBefore(tyreColumns, STANCE_COLUMNS.tyre, run)
    ) {
      axleHeights[run] = axleHeights[run - 1]!;
      continue;
    }
    gather(carColumns, run, car);
    gather(tyreColumns, run, tyre);
    axleHeights[run] = staticLoadedRadius(car, tyre, build, pressure);
  }
}

/** Room for the moments of up to `capacity` runs: MOMENTS_LENGTH numbers a run. */
export const createMomentTable = (capacity: number): Float64Array =>
  new Float64Array(capacity * MOMENTS_LENGTH);

/**
 * The car's side of every moment of a block of runs; tyres that share the car's inputs share it.
 * @param carColumns  one array a CAR_INPUTS name, SI, each of at least `count` draws
 * @param momentTable  as made by `createMomentTable`, overwritten for the first `count` runs
 */
export function fillMomentTable(
  setup: RunSetup,
  carColumns: readonly Float64Array[],
  count: number,
  momentTable: Float64Array,
): void {
  for (let run = 0; run < count; run++) {
    gather(carColumns, run, car);
    fillMoments(car, setup, momentTable, run * MOMENTS_LENGTH);
  }
}

/**
 * Fills loaded tyre, round tyre, drop and forward movement of every moment of the gathered run, and the order to look at
 * them in: the likely tightest first, so that a bound mostly shows that the others need less. The answer does not depend
 * on it.
 * @param first  place of the run's first moment in `moments`
 * @param base  axle height above the track at rest, less what the tub stands too high, m
 * @returns how many moments happen
 */
function fillRounds(
  tyreSetup: TyreSetup,
  moments: Float64Array,
  first: number,
  base: number,
  growthFactor: number,
): number {
  let happening = 0;
  for (let m = 0; m < MOMENTS.length; m++) {
    const at = first + m * MOMENT_LENGTH;
    if (moments[at + HAPPENS]! === 0) continue;
    const loaded = loadedTyres[m]!;
    const round = rounds[m]!;
    fillLoadedTyre(tyre, inflated, tyreSetup, moments, at, growthFactor, loaded);
    fillRound(tyre, loaded, round);
    const drop = dropAtMoment(car, tyre[RIDE_CHANGE]!, moments[at + SPRING_FORCE]!, moments[at + MOVING]!);
    drops[m] = drop;
    lifts[m] = base + drop;
    forwards[m] = forwardAtMoment(car, drop, moments[at + THRUST_SHARE]!);
    const top = drop + loaded[GROWN]!;
    tops[m] = top;
    let place = happening++;
    for (; place > 0 && tops[order[place - 1]!]! < top; place--) order[place] = order[place - 1]!;
    order[place] = m;
  }
  return happening;
}

/** First tub, from `from` on, in which the round tyre of a moment may need more than what its run needs already. */
function firstOpenTub(setup: ClearanceSetup, table: RunTable, run: number, m: number, from: number): number {
  const { tubs, reserve } = setup;
  const round = rounds[m]!;
  const largest = round[ROUND_LARGEST]!;
  const widest = round[ROUND_WIDEST]!;
  for (let t = from; t < tubs.length; t++) {
    const place = t * table.capacity + run;
    const tub = tubs[t]!;
    const offset = tub.centreForward + car[CENTRE_ERROR]! - forwards[m]!;
    const beat = table.requiredHeight[place]! - lifts[m]!;
    if (!roundFits(largest, widest, tub, offset, reserve, beat)) return t;
    // Without the reserve a tub may stand lower by the reserve at least.
    const beatContact = table.contactHeight[place]! - lifts[m]!;
    if (beatContact < beat - reserve && !roundFits(largest, widest, tub, offset, 0, beatContact)) return t;
  }
  return tubs.length;
}

/** Whether the round tyre of a moment leaves every hard point the reserve, or the least gap of its run so far. */
function clearsHardPoints(setup: ClearanceSetup, table: RunTable, run: number, m: number): boolean {
  const { hardPoints, reserve } = setup;
  const drop = drops[m]!;
  const forward = forwards[m]!;
  const widest = rounds[m]![ROUND_WIDEST]!;
  for (let h = 0; h < hardPoints.length; h++) {
    const fan = hardPoints[h]!;
    const enough = Math.min(reserve, table.hardGap[h * table.capacity + run]!);
    if (fan.distance - Math.abs(drop) - Math.abs(forward) - widest > enough) continue;
    if (!(fan.distance > 0 && hardPointGap(fan.point, forward, drop) - widest > enough)) return false;
  }
  return true;
}

/** Fills what one moment of the run in hand needs in the tubs from `from` on, and what it leaves to the hard points. */
function evaluateMoment(setup: ClearanceSetup, table: RunTable, run: number, m: number, from: number): void {
  const { tubs, hardPoints, reserve } = setup;
  const { capacity } = table;
  fillLoadedOutline(tyre, loadedTyres[m]!, outline);
  fillOutlineGrid(outline, lobe);
  const round = rounds[m]!;
  round[ROUND_LARGEST] = outline[LARGEST]!;
  round[ROUND_WIDEST] = outline[WIDEST]!;
  const lift = lifts[m]!;
  let t = firstOpenTub(setup, table, run, m, from);
  while (t < tubs.length) {
    const tub = tubs[t]!;
    const place = t * capacity + run;
    const offset = tub.centreForward + car[CENTRE_ERROR]! - forwards[m]!;
    const beat = table.requiredHeight[place]! - lift;
    const beatContact = table.contactHeight[place]! - lift;
    fillRequiredHeight(outline, tub, offset, reserve, beat, beatContact, answer);
    const height = lift + answer[NEEDED]!;
    if (!(height <= table.requiredHeight[place]!)) {
      table.requiredHeight[place] = height;
      table.tightAngle[place] = answer[NEEDED_ANGLE]!;
      table.tightMoment[place] = m;
      table.tightWall[place] = answer[NEEDED_WALL]!;
    }
    const contact = lift + answer[NEEDED_CONTACT]!;
    if (!(contact <= table.contactHeight[place]!)) table.contactHeight[place] = contact;
    t = firstOpenTub(setup, table, run, m, t + 1);
  }
  for (let h = 0; h < hardPoints.length; h++) {
    const place = h * capacity + run;
    const enough = Math.min(reserve, table.hardGap[place]!);
    const fan = hardPoints[h]!;
    if (fan.distance - Math.abs(drops[m]!) - Math.abs(forwards[m]!) - round[ROUND_WIDEST]! > enough) continue;
    const gap = hardGap(outline, fan, drops[m]!, forwards[m]!, enough);
    if (gap < table.hardGap[place]!) table.hardGap[place] = gap;
  }
}

/**
 * Every moment of a block of runs with one tyre, against every tub and hard point. One pass answers every height:
 * a run keeps its reserve in a tub whose top stands at or above its required height.
 * Allocates nothing. A run whose numbers leave the model's range comes out NaN in the heights of every tub; the caller
 * must look for it.
 * Where nobody asks for heights below a floor, the search begins there and most outlines need not be computed: a moment
 * is passed over when a round tyre that holds its outline fits. Required and contact height are then the larger of their
 * own and the floor, bit by bit. A run that needs no more than the floor has no deciding point: its angle, moment and
 * wall are 0. Gaps to hard points are the same bits below the reserve; above it, only that they are above.
 * @param carColumns  one array a CAR_INPUTS name, SI, each of at least `count` draws
 * @param tyreColumns  one array a TYRE_INPUTS name, the same
 * @param moments  as filled by `fillMomentTable` from the same car columns
 * @param axleHeights  static loaded radius of each run with the build tyre, m
 * @param count  runs in the block, at most the table's capacity
 * @param table  overwritten for the first `count` runs
 * @param floors  lowest top height in question of each tub, m; without them every height is
 */
export function evaluateRuns(
  setup: ClearanceSetup,
  tyreSetup: TyreSetup,
  carColumns: readonly Float64Array[],
  tyreColumns: readonly Float64Array[],
  moments: Float64Array,
  axleHeights: Float64Array,
  count: number,
  table: RunTable,
  floors?: Float64Array,
): void {
  const { tubs, hardPoints } = setup;
  const { capacity } = table;
  for (let run = 0; run < count; run++) {
    gather(carColumns, run, car);
    gather(tyreColumns, run, tyre);
    fillInflated(tyre, tyreSetup, car[AIR_TEMPERATURE]!, car[STATION_PRESSURE]!, inflated);
    for (let t = 0; t < tubs.length; t++) {
      const place = t * capacity + run;
      const floor = floors === undefined ? Number.NEGATIVE_INFINITY : floors[t]!;
      table.requiredHeight[place] = floor;
      table.contactHeight[place] = floor;
      table.tightAngle[place] = 0;
      table.tightMoment[place] = 0;
      table.tightWall[place] = 0;
    }
    for (let h = 0; h < hardPoints.length; h++) table.hardGap[h * capacity + run] = Number.POSITIVE_INFINITY;

    const happening = fillRounds(
      tyreSetup,
      moments,
      run * MOMENTS_LENGTH,
      axleHeights[run]! - car[TOP_ERROR]!,
      setup.growthFactor,
    );
    let lobeFilled = false;
    for (let turn = 0; turn < happening; turn++) {
      const m = order[turn]!;
      const from = firstOpenTub(setup, table, run, m, 0);
      if (from === tubs.length && clearsHardPoints(setup, table, run, m)) continue;
      if (!lobeFilled) fillLobe(lobe, tyre[LOBE_HEIGHT]!, tyre[LOBE_ANGLE]!);
      lobeFilled = true;
      evaluateMoment(setup, table, run, m, from);
      if (Number.isNaN(table.requiredHeight[run]!)) break;
    }
  }
}
