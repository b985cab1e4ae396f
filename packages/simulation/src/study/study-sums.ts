import { BLOCK, SEEN_FROM } from '@tubgap/statistics';
import { clearWorst, createWorstRun, takeRun, type WorstRun } from '../count.ts';
import { addSteps, addWeight, emptySteps, type WeightedSteps } from '../importance/weighted-tally.ts';
import type { BlockRoom } from '../run-risk.ts';
import { HEIGHT_STEPS } from '../tally.ts';
import type { StudyDraws } from './study-draws.ts';
import type { StudyPoint } from './study-point.ts';

/** What every run of one block did: [tyre or, last, all tyres][tub or hard point], one element a run. */
export interface BlockOutcome {
  /** How many heights, from the lowest up, are touched. */
  steps: Uint16Array[][];
  legs: Uint8Array[][];
  hardPoints: Uint8Array[][];
}

/** Sums over draws with one tyre, or with all, in one tub; plain draws weigh 1. */
export interface CellSums {
  steps: WeightedSteps;
  /** Weight, by steps alike, of the draws that lie where the base's mixture does not lead to. */
  unseen: Float64Array;
  /** Weight of the draws in which a leg is touched. */
  legs: number;
  /** Whether any draw asks for another height than in the base. */
  moved: boolean;
  /** At each height where setups are compared, in their order. */
  compared: ComparedSums[];
}

/** Sums over draws that touch in one of two setups alone, at one height. */
export interface ComparedSums {
  /** Weight of the draws that touch here but not in the base, and the other way round. */
  gained: number;
  lost: number;
  /** Of both, the sum of squares. */
  square: number;
}

/** Sums of one setup: [tyre or, last, all tyres][tub or hard point]. */
export interface PointSums {
  events: number;
  cells: CellSums[][];
  /** Weight of the draws in which a hard point is touched. */
  hardPoints: number[][];
}

const emptyCell = (heights: number): CellSums => ({
  steps: emptySteps(),
  unseen: new Float64Array(HEIGHT_STEPS + 1),
  legs: 0,
  moved: false,
  compared: Array.from({ length: heights }, () => ({ gained: 0, lost: 0, square: 0 })),
});

/**
 * Sums with nothing in them.
 * @param heights  of each of the base's tubs, where setups are compared
 */
export function emptyPointSums(
  { setup, tubOf }: StudyPoint,
  heights: readonly (readonly number[])[],
): PointSums {
  const { tubs, hardPoints } = setup.clearance;
  const rows = setup.tyres.length + 1;
  return {
    events: 0,
    cells: Array.from({ length: rows }, () => tubs.map((_, t) => emptyCell(heights[tubOf[t]!]?.length ?? 0))),
    hardPoints: Array.from({ length: rows }, () => hardPoints.map(() => 0)),
  };
}

/** Adds the sums of more draws; always in the same order, for sums of fractions depend on it. */
export function addPointSums(total: PointSums, more: PointSums): void {
  total.events += more.events;
  total.cells.forEach((tubs, i) => {
    tubs.forEach((cell, t) => {
      const other = more.cells[i]![t]!;
      addSteps(cell.steps, other.steps);
      for (let n = 0; n <= HEIGHT_STEPS; n++) cell.unseen[n]! += other.unseen[n]!;
      cell.legs += other.legs;
      cell.moved ||= other.moved;
      cell.compared.forEach((sums, k) => {
        sums.gained += other.compared[k]!.gained;
        sums.lost += other.compared[k]!.lost;
        sums.square += other.compared[k]!.square;
      });
    });
  });
  total.hardPoints.forEach((weights, i) => {
    weights.forEach((_, h) => {
      weights[h]! += more.hardPoints[i]![h]!;
    });
  });
}

/** Reads off an evaluated block what every run did. @throws ModelRangeError when a run came out as no number */
export function blockOutcome({ setup }: StudyPoint, room: BlockRoom): BlockOutcome {
  const { tubs, hardPoints } = setup.clearance;
  const rows = setup.tyres.length + 1;
  const outcome: BlockOutcome = {
    steps: Array.from({ length: rows }, () => tubs.map(() => new Uint16Array(BLOCK))),
    legs: Array.from({ length: rows }, () => tubs.map(() => new Uint8Array(BLOCK))),
    hardPoints: Array.from({ length: rows }, () => hardPoints.map(() => new Uint8Array(BLOCK))),
  };
  const one = createWorstRun(setup);
  const all = createWorstRun(setup);
  const keep = (row: number, run: number, worst: WorstRun): void => {
    for (let t = 0; t < tubs.length; t++) {
      outcome.steps[row]![t]![run] = worst.steps[t]!;
      outcome.legs[row]![t]![run] = worst.legs[t]!;
    }
    for (let h = 0; h < hardPoints.length; h++) outcome.hardPoints[row]![h]![run] = worst.hardPoints[h]!;
  };
  for (let run = 0; run < BLOCK; run++) {
    clearWorst(all);
    setup.tyres.forEach((tyre, i) => {
      clearWorst(one);
      takeRun(setup, tyre.name, room.tables[i]!, run, one);
      takeRun(setup, tyre.name, room.tables[i]!, run, all);
      keep(i, run, one);
    });
    keep(rows - 1, run, all);
  }
  return outcome;
}

/** The base beside which a setup's block is counted. */
export interface BesideBase {
  outcome: BlockOutcome;
  room: BlockRoom;
  /** Steps of each of the base's tubs at which touches are compared. */
  steps: readonly (readonly number[])[];
}

/** Whether any run of the block asks for another height with this tyre in this tub than in the base. */
function tyreMoved(
  room: BlockRoom,
  base: BlockRoom,
  tyres: [number, number],
  tubs: [number, number],
): boolean {
  const here = room.tables[tyres[0]]!;
  const there = base.tables[tyres[1]]!;
  for (let run = 0; run < BLOCK; run++) {
    const own = here.requiredHeight[tubs[0] * here.capacity + run]!;
    if (own !== there.requiredHeight[tubs[1] * there.capacity + run]!) return true;
  }
  return false;
}

/** Adds one block of a setup to its sums. */
export function sumBlock(
  point: StudyPoint,
  outcome: BlockOutcome,
  room: BlockRoom,
  base: BesideBase,
  { weights, ratios }: Pick<StudyDraws, 'weights' | 'ratios'>,
  sums: PointSums,
): void {
  const last = point.setup.tyres.length;
  const baseLast = base.outcome.steps.length - 1;
  sums.events += BLOCK;
  outcome.steps.forEach((tubs, row) => {
    const besideRow = row === last ? baseLast : point.tyreOf[row]!;
    tubs.forEach((steps, t) => {
      const cell = sums.cells[row]![t]!;
      for (let run = 0; run < BLOCK; run++) {
        addWeight(cell.steps, steps[run]!, weights[run]!);
        if (ratios[run]! < SEEN_FROM) cell.unseen[steps[run]!]! += weights[run]!;
        if (outcome.legs[row]![t]![run] === 1) cell.legs += weights[run]!;
      }
      const besideTub = point.tubOf[t]!;
      if (besideRow < 0 || besideTub < 0) return;
      const theirs = base.outcome.steps[besideRow]![besideTub]!;
      compareRuns(cell, steps, theirs, base.steps[besideTub] ?? [], weights);
      cell.moved ||=
        row === last
          ? sums.cells.slice(0, last).some((cells) => cells[t]!.moved) || last !== baseLast
          : tyreMoved(room, base.room, [row, besideRow], [t, besideTub]);
    });
    outcome.hardPoints[row]!.forEach((touched, h) => {
      for (let run = 0; run < BLOCK; run++) {
        if (touched[run] === 1) sums.hardPoints[row]![h]! += weights[run]!;
      }
    });
  });
}

function compareRuns(
  cell: CellSums,
  steps: Uint16Array,
  theirs: Uint16Array,
  heights: readonly number[],
  weights: Float64Array,
): void {
  for (let run = 0; run < BLOCK; run++) {
    const here = steps[run]!;
    const there = theirs[run]!;
    if (here === there) continue;
    cell.moved = true;
    const weight = weights[run]!;
    cell.compared.forEach((sums, k) => {
      const height = heights[k]!;
      if (here > height === there > height) return;
      if (here > height) sums.gained += weight;
      else sums.lost += weight;
      sums.square += weight * weight;
    });
  }
}
