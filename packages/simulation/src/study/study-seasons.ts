import { BLOCK, drawsToSupport } from '@tubgap/statistics';
import { aboveFloors, type Floors } from '../floors.ts';
import { type Centres, NO_CENTRES } from '../importance/mixture.ts';
import { mixtureSeasons } from '../importance/weighted-seasons.ts';
import { addWeighted, emptyWeighted, type WeightedTally } from '../importance/weighted-tally.ts';
import { createBlockRoom } from '../run-risk.ts';
import { tallySeasons } from '../season-risk.ts';
import type { CaseSetup } from '../setup.ts';
import { addTally, emptyTally, type Tally } from '../tally.ts';
import type { StudyPoint } from './study-point.ts';

/** Cars of a sample, each running its season: `firstCar` up to but not including `endCar`. */
export interface CarRange {
  drawnBy: 'seasons' | 'weighted seasons';
  firstCar: number;
  endCar: number;
}

/** Seasons of one setup: counted, of them those where the mixture of the weighted cars does not lead to, and weighed. */
export interface SeasonSums {
  counted: Tally;
  unseen: Tally;
  weighted: WeightedTally;
}

/** Weighted cars. */
const TAIL_CARS = BLOCK;
const CARS_A_TASK = 64;

const carRanges = (drawnBy: CarRange['drawnBy'], cars: number): CarRange[] =>
  Array.from({ length: Math.ceil(cars / CARS_A_TASK) }, (_, i) => ({
    drawnBy,
    firstCar: i * CARS_A_TASK,
    endCar: Math.min(cars, (i + 1) * CARS_A_TASK),
  }));

/** The seasons that a number of cars run, counted. */
export const countedSeasons = (cars: number): CarRange[] => carRanges('seasons', cars);

/** Those that are weighed beside them: none where the counted ones can support the accepted risk. */
export const weightedSeasons = (cars: number, accepted: number): CarRange[] =>
  cars < drawsToSupport(accepted) ? carRanges('weighted seasons', TAIL_CARS) : [];

export const emptySeasons = ({ lowestHeights, clearance }: CaseSetup): SeasonSums => ({
  counted: emptyTally(lowestHeights, clearance.hardPoints.length),
  unseen: emptyTally(lowestHeights, clearance.hardPoints.length),
  weighted: emptyWeighted(clearance.tubs.length, clearance.hardPoints.length),
});

/** Adds seasons of the same setup, the weighted ones in the order of their draws. */
export function addSeasons(total: SeasonSums, more: SeasonSums): void {
  addTally(total.counted, more.counted);
  addTally(total.unseen, more.unseen);
  addWeighted(total.weighted, more.weighted);
}

/** Whether the centres of the base speak of a setup's directions too. */
const isSameSpace = ({ space: one }: StudyPoint, { space: other }: StudyPoint): boolean =>
  one.directions.length === other.directions.length &&
  one.directions.every(({ stream }, d) => stream === other.directions[d]!.stream);

/**
 * Seasons of a setup with the numbers of the base: streams go by the base's names. Where the setup has other directions
 * than the base nothing is weighed, and all of its seasons count as where no mixture leads to.
 * @param centres  of the base; NO_CENTRES where no seasons are weighed
 */
export function pointSeasons(
  point: StudyPoint,
  base: StudyPoint,
  floors: Floors,
  seed: number,
  centres: Centres,
  { drawnBy, firstCar, endCar }: CarRange,
): SeasonSums {
  const setup = { ...point.setup, tyres: point.drawn };
  const sums = emptySeasons(setup);
  const room = aboveFloors(createBlockRoom(setup), floors);
  const { space } = point;
  const known = isSameSpace(point, base) ? centres : NO_CENTRES;
  if (drawnBy === 'seasons') {
    const beside = { unseen: sums.unseen, seeing: { space, centres: known } };
    tallySeasons(setup, seed, firstCar, endCar, room, sums.counted, beside);
  } else if (known.points.length > 0) {
    sums.weighted = mixtureSeasons(setup, space, known, seed, firstCar, endCar, room);
  }
  return sums;
}
