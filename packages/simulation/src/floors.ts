import type { Case } from '@tubgap/casefile';
import { BLOCK } from '@tubgap/statistics';
import { SIXTEENTH } from '@tubgap/units';
import { heightOf } from './heights.ts';
import type { BlockRoom } from './run-risk.ts';
import { emptyRunTallies, type RunTallies } from './run-tallies.ts';
import { tallyRuns } from './runner.ts';
import type { CaseSetup } from './setup.ts';
import { HEIGHT_STEPS, type TubTally } from './tally.ts';

/**
 * Lowest top height in question, m: [tyre][tub]. What a run needs is told from there on, and much faster: there and above
 * every risk is the same to the last bit. Below it a run counts as one that touches, so that no risk is said too small.
 */
export type Floors = readonly (readonly number[])[];

/** Plain blocks, the first of every sample, from which floors are found. */
export const PILOT_BLOCKS = 2;
/** Share of runs that touch at a floor: nothing is asked of heights with a risk so large. */
const SHARE = 0.1;
/** And at least so many times what is accepted, so that this and its interval lie well above the floor. */
const TIMES_ACCEPTED = 4;
/** No floors are sought where those were a larger share. */
const MOST_SHARE = 0.5;

/** Height that a share of the runs exceeds, of those that some height helps, m to the next lower sixteenth. */
function exceededBy({ lowest, steps }: TubTally, events: number, share: number): number {
  const most = share * (events - steps[HEIGHT_STEPS]!);
  let above = 0;
  let n = HEIGHT_STEPS;
  while (n > 1 && above <= most) above += steps[--n]!;
  return heightOf(lowest, Math.max(0, n - 1));
}

/**
 * Floors by pilot runs: multiples of 1/4 in, none below the tallies' lowest heights.
 * @param accepted  run risk that the shop accepts, of each tyre
 * @param asked  further heights in question of each tub, m: no floor lies above them
 */
export function floorsOf(
  { tyres }: Pick<RunTallies, 'tyres'>,
  accepted: readonly number[],
  asked: readonly (readonly number[])[] = [],
): number[][] {
  return tyres.map(({ events, tubs }, i) => {
    const share = Math.max(SHARE, TIMES_ACCEPTED * accepted[i]!);
    return tubs.map((tub, t) => {
      const found = share > MOST_SHARE ? tub.lowest : exceededBy(tub, events, share);
      const least = Math.min(found, ...(asked[t] ?? []));
      return Math.max(tub.lowest, Math.floor(least / (4 * SIXTEENTH) + 1e-9) * 4 * SIXTEENTH);
    });
  });
}

/** Pilot runs of a setup, counted at every height. @throws ModelRangeError when a draw leaves what the model knows */
export function pilotRuns(setup: CaseSetup, seed: number, room: BlockRoom): RunTallies {
  const tallies = emptyRunTallies(setup);
  tallyRuns(setup, seed, PILOT_BLOCKS * BLOCK, 0, PILOT_BLOCKS, room, tallies);
  return tallies;
}

/** Heights of each tub that papers name whatever its risk, m: those of the case, where the car has no more room, where it stands. */
const namedHeights = ({ tubs, existing, heights = [], envelope: { highestTop } }: Case): number[][] =>
  tubs.map(({ name, skinThickness, liner }) => [
    ...heights,
    ...(highestTop === undefined ? [] : [highestTop - skinThickness - liner]),
    ...(existing?.tub.name === name ? [existing.topHeight] : []),
  ]);

/**
 * Floors of a case.
 * @param asked  heights asked about, in whichever tub, m
 * @throws ModelRangeError when a draw leaves what the model knows
 */
export function findFloors(
  source: Case,
  setup: CaseSetup,
  room: BlockRoom,
  asked: readonly number[],
): number[][] {
  const heights = namedHeights(source).map((own) => [...own, ...asked]);
  const accepted = setup.tyres.map((tyre) => tyre.accepted);
  return floorsOf(pilotRuns(setup, source.simulation.seed, room), accepted, heights);
}

/** A room whose runs are told from the floors on; without floors the room itself. */
export const aboveFloors = (room: BlockRoom, floors: Floors | undefined): BlockRoom =>
  floors === undefined ? room : { ...room, floors: floors.map((own) => Float64Array.from(own)) };
