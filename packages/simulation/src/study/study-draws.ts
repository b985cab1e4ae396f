import { BLOCK } from '@tubgap/statistics';
import { type Centres, drawMixture, NO_CENTRES, plainRatios } from '../importance/mixture.ts';
import { type Direction, fillNormals, setDirection } from '../importance/normal-space.ts';
import { type BlockRoom, createBlockRoom } from '../run-risk.ts';
import type { StudyPoint } from './study-point.ts';

/** Which block of which random numbers. */
export interface BlockAddress {
  seed: number;
  prefix: string;
  block: number;
}

/** Random numbers of one block that every setup of a study shares. */
export interface StudyDraws extends BlockAddress {
  /** Standard normal numbers of the base's streams. */
  normals: ReadonlyMap<string, Float64Array>;
  /** 1 for plain draws, else plain density over the mixture's. */
  weights: Float64Array;
  /** Density of the base's mixture over the plain one at each draw. */
  ratios: Float64Array;
}

/** Whether draws are moved to where touches are, and then weighed. */
export type DrawnBy = 'plain' | 'weighted';

/**
 * Draws one block plainly or from the base's mixture. The weight of a draw depends on the
 * base's streams alone and so is the same for every setup: it does not stand in the way of their difference.
 * @param only  which directions are drawn; setups draw the others for themselves
 */
export function drawStudyBlock(
  { space }: StudyPoint,
  drawnBy: DrawnBy,
  centres: Centres,
  address: BlockAddress,
  room: BlockRoom,
  only: (direction: Direction) => boolean = () => true,
): StudyDraws {
  const { seed, prefix, block } = address;
  const { directions } = space;
  const weights = new Float64Array(BLOCK);
  const isDrawn = (d: number): boolean => only(directions[d]!);
  const from = drawnBy === 'plain' ? NO_CENTRES : centres;
  const normals = drawMixture(space, from, isDrawn, seed, prefix, block, BLOCK, room, weights);
  const ratios =
    drawnBy === 'plain'
      ? plainRatios(space, centres, isDrawn, seed, prefix, block, BLOCK)
      : weights.map((weight) => 1 / weight);
  return {
    ...address,
    normals: new Map(
      directions.flatMap(({ stream }, d) => (isDrawn(d) ? [[stream, normals[d]!] as const] : [])),
    ),
    weights,
    ratios,
  };
}

/** A block's room with every input of a setup at its middle value. */
export function createStudyRoom({ setup }: StudyPoint): BlockRoom {
  const room = createBlockRoom(setup);
  room.columns.forEach(({ car, tyre }, i) => {
    const { centralCar, centralTyre } = setup.tyres[i]!;
    car.forEach((column, c) => {
      column.fill(centralCar[c]!);
    });
    tyre.forEach((column, c) => {
      column.fill(centralTyre[c]!);
    });
  });
  return room;
}

/** Puts a block's numbers into the columns of a setup. A stream that the base does not have is drawn plainly. */
export function fillStudyColumns(point: StudyPoint, draws: StudyDraws, room: BlockRoom): void {
  const { seed, prefix, block } = draws;
  const own = new Float64Array(BLOCK);
  for (const direction of point.space.directions) {
    let numbers = draws.normals.get(direction.stream);
    if (numbers === undefined) {
      fillNormals(direction, seed, prefix, block, BLOCK, own);
      numbers = own;
    }
    setDirection(direction, numbers, BLOCK, room.columns);
  }
}
