import { BLOCK } from '@tubgap/statistics';
import { clearWorst } from '../count.ts';
import { createColumns, fillColumns } from '../draws.ts';
import type { BlockRoom } from '../run-risk.ts';
import { runSeason } from '../season-risk.ts';
import type { CaseSetup } from '../setup.ts';
import type { Centres } from './mixture.ts';
import { drawMixture } from './mixture.ts';
import type { NormalSpace } from './normal-space.ts';
import { weighEvent } from './weighted-risk.ts';
import { emptyWeighted, type WeightedTally } from './weighted-tally.ts';

/**
 * Weighted seasons: cars are drawn more often where they are tight, each counts with its weight, and each runs its
 * season plainly, so that a rare touch of an ordinary car counts as well.
 * @param firstCar,endCar  within one block of cars
 */
export function mixtureSeasons(
  setup: CaseSetup,
  space: NormalSpace,
  centres: Centres,
  seed: number,
  firstCar: number,
  endCar: number,
  room: BlockRoom,
): WeightedTally {
  const { tubs, hardPoints } = setup.clearance;
  const tally = emptyWeighted(tubs.length, hardPoints.length);
  const weights = new Float64Array(BLOCK);
  const block = Math.floor(firstCar / BLOCK);
  const carRoom = { ...room, columns: createColumns(setup.tyres) };
  // Inputs without spread get their values here; the others are drawn again.
  fillColumns(
    setup.tyres,
    seed,
    '',
    block,
    setup.tyres.map(() => BLOCK),
    'car',
    carRoom.columns,
  );
  const fixed = (d: number): boolean => space.directions[d]!.fixedForCar;
  drawMixture(space, centres, fixed, seed, 'tail-season/', block, BLOCK, carRoom, weights);
  for (let car = firstCar; car < endCar; car++) {
    clearWorst(room.worst);
    runSeason(setup, carRoom.columns, seed, 'tail-season/', block, car % BLOCK, room);
    weighEvent(room.worst, weights[car % BLOCK]!, tally);
  }
  return tally;
}
