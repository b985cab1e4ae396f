import { BLOCK, SEEN_FROM } from '@tubgap/statistics';
import { clearWorst, countEvent, takeRun } from './count.ts';
import { createColumns, type DrawColumns, fillColumns } from './draws.ts';
import { plainRatios } from './importance/mixture.ts';
import { type BlockRoom, evaluateTyre, fillBlockAxleHeights } from './run-risk.ts';
import type { Seeing } from './runner.ts';
import type { CaseSetup } from './setup.ts';
import type { Tally } from './tally.ts';

/** The fixed values of a block of cars, for every tyre. */
function drawCars(setup: CaseSetup, seed: number, block: number, count: number): DrawColumns[] {
  const columns = createColumns(setup.tyres);
  const counts = setup.tyres.map(() => count);
  fillColumns(setup.tyres, seed, '', block, counts, 'car', columns);
  return columns;
}

/** Repeats one car's fixed values over its runs, in every tyre's columns. */
function repeatCar(
  setup: CaseSetup,
  cars: readonly DrawColumns[],
  car: number,
  runs: number,
  columns: readonly DrawColumns[],
): void {
  setup.tyres.forEach((tyre, i) => {
    const from = cars[i]!;
    const to = columns[i]!;
    tyre.car.forEach((input, c) => {
      if (input.each === 'car') to.car[c]!.fill(from.car[c]![car]!, 0, runs);
    });
    tyre.tyre.forEach((input, c) => {
      if (input.each === 'car') to.tyre[c]!.fill(from.tyre[c]![car]!, 0, runs);
    });
  });
}

/**
 * Runs one car's whole season, every tyre its own number of runs, into the room's worst run. Given the car all runs are
 * independent: each tyre's have streams of their own for everything that is new every run, the car's inputs as well,
 * for a run on one tyre is another run than that on the next.
 */
export function runSeason(
  setup: CaseSetup,
  cars: readonly DrawColumns[],
  seed: number,
  prefix: string,
  block: number,
  car: number,
  room: BlockRoom,
): void {
  const address = block * BLOCK + car;
  const longest = Math.max(...setup.tyres.map((tyre) => tyre.runsPerSeason));
  repeatCar(setup, cars, car, Math.max(1, longest), room.columns);
  fillSeasonAxleHeight(setup, seed, prefix, address, longest, room);
  setup.tyres.forEach((tyre, i) => {
    const runs = tyre.runsPerSeason;
    if (runs === 0) return;
    fillColumns([tyre], seed, `${prefix}run/${tyre.name}/`, address, [runs], 'run', [room.columns[i]!]);
    evaluateTyre(setup, room, i, runs);
    for (let run = 0; run < runs; run++) takeRun(setup, i, room.tables[i]!, run, room.worst);
  });
}

/**
 * Season risk by counting cars: each sampled car runs its whole season, every tyre its own number of runs, and a
 * season touches when one of its runs does. No formula in the mean risk of a run stands in for it: cars differ, and
 * 1 − (1 − p)^N of the mean is not the mean of 1 − (1 − p)^N.
 * The cars are the first ones of the run risk; their runs have streams of their own. Cars `firstCar` up to but not
 * including `endCar`.
 * @param beside  counts those cars once more that lie where the mixture of weighted cars does not lead to
 */
export function tallySeasons(
  setup: CaseSetup,
  seed: number,
  firstCar: number,
  endCar: number,
  room: BlockRoom,
  tally: Tally,
  beside?: { unseen: Tally; seeing: Seeing },
): void {
  for (let block = Math.floor(firstCar / BLOCK); block * BLOCK < endCar; block++) {
    const cars = drawCars(setup, seed, block, Math.min(BLOCK, endCar - block * BLOCK));
    const from = Math.max(0, firstCar - block * BLOCK);
    const end = Math.min(BLOCK, endCar - block * BLOCK);
    const ratios = beside && carRatios(beside.seeing, seed, block, end);
    for (let car = from; car < end; car++) {
      clearWorst(room.worst);
      runSeason(setup, cars, seed, 'season/', block, car, room);
      countEvent(room.worst, tally);
      if (beside && ratios![car]! < SEEN_FROM) countEvent(room.worst, beside.unseen);
    }
  }
}

/** Density of the mixture of weighted cars over the plain one at the first cars of a block. */
const carRatios = ({ space, centres }: Seeing, seed: number, block: number, cars: number): Float64Array =>
  plainRatios(space, centres, (d) => space.directions[d]!.fixedForCar, seed, '', block, cars);

/** A car's tub is set once, on a day that is none of its runs: one axle height for its whole season. */
function fillSeasonAxleHeight(
  setup: CaseSetup,
  seed: number,
  prefix: string,
  address: number,
  runs: number,
  room: BlockRoom,
): void {
  if (setup.axleHeight === undefined) {
    const build = setup.tyres[setup.buildIndex]!;
    const columns = room.columns[setup.buildIndex]!;
    fillColumns([build], seed, `${prefix}set-up/`, address, [1], 'run', [columns]);
  }
  fillBlockAxleHeights(setup, room, 1);
  room.axleHeights.fill(room.axleHeights[0]!, 0, runs);
}
