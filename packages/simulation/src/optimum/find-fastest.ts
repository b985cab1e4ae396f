import type { Case } from '@tubgap/casefile';
import type { Limit } from '../limits/limit.ts';
import { limitsBy } from '../limits/limits-by.ts';
import { limitQuantities } from '../limits/quantities.ts';
import type { StudySetup } from '../study/study-point.ts';
import type { StudySample } from '../study/study-tasks.ts';
import { type Beyond, besideBest, type Optimum, type OptimumWork } from './find-optimum.ts';
import { judgeOptimum } from './judge-optimum.ts';
import type { LatticePlace } from './lattice-search.ts';
import { type OptimumRoom, openLookAt, type SearchedOptimum, searchOptimum } from './search-optimum.ts';

/** The tub at its height in which the car is to run as fast as it may, and the tyre that asks for most there. */
export interface FastestGoal {
  tub: number;
  tyre: number;
  /** m */
  topHeight: number;
}

/** Speeds at which a place is looked at, as shares of what the case has. */
const SPEEDS = [0.7, 0.8, 0.9, 1, 1.1, 1.2, 1.3];
/** Times that places are searched anew, each time at the speed that the last best one keeps. */
const MOST_TURNS = 3;

/** The case with the speed of one tyre's runs, m/s; undefined: its own. */
function atSpeed(source: Case, tyre: number, speed: number | undefined): Case {
  const quantity = limitQuantities(source, tyre).find(({ code }) => code === 'speed');
  return speed === undefined || quantity === undefined ? source : quantity.at(speed);
}

const speedNow = (source: Case, tyre: number): number =>
  limitQuantities(source, tyre).find(({ code }) => code === 'speed')!.now;

/** Where a rising height passes what there is, straight between speeds; the last speed looked at where it does not. */
function passingSpeed(speeds: readonly number[], heights: readonly number[], most: number): number {
  const after = heights.findIndex((height) => height > most);
  if (after < 0) return speeds.at(-1)!;
  if (after === 0) return speeds[0]!;
  const [low, high] = [heights[after - 1]!, heights[after]!];
  const share = Number.isFinite(high) ? (most - low) / (high - low) : 0.5;
  return speeds[after - 1]! + share * (speeds[after]! - speeds[after - 1]!);
}

/**
 * Finds the values of some inputs with which the car may run fastest in a tub at its height, and how fast. Where the height
 * that is asked for rises with the speed, the place that allows most is the one that asks for the least height at just that speed:
 * so places are searched at the speed that the best of them keeps, until it is the same. The search has draws of its own;
 * the speed is then the limit that `tubgap limits` finds of the case with these values.
 * @returns as `findOptimum`, heights at the speed that was found, with that limit and the one of the case as it stands
 * @throws ModelRangeError that names the setup which leaves what the model knows
 */
export async function findFastest(
  room: OptimumRoom,
  { tub, tyre, topHeight }: FastestGoal,
  sample: StudySample,
  work: OptimumWork,
  beyondAt: (place: LatticePlace) => Beyond[] = () => [],
  tell: (done: number) => void = () => {},
): Promise<Optimum & { limits: { best: Limit; own: Limit } }> {
  const at =
    (speed: number | undefined) =>
    ({ source, ...setup }: StudySetup): StudySetup => ({ ...setup, source: atSpeed(source, tyre, speed) });
  const roomAt = (speed: number | undefined): OptimumRoom => ({
    ...room,
    source: atSpeed(room.source, tyre, speed),
    setupAt: (place) => at(speed)(room.setupAt(place)),
  });
  const keptAt = async (place: LatticePlace): Promise<number> => {
    const setup = room.setupAt(place);
    const speeds = SPEEDS.map((share) => share * speedNow(setup.source, tyre));
    const along: OptimumRoom = {
      source: room.source,
      sizes: [speeds.length],
      setupAt: ([k]) => at(speeds[k!])(setup),
    };
    const [looked] = await openLookAt(
      along,
      sample,
      work.perform,
    )(
      speeds.map((_, k) => [k]),
      [tub],
    );
    const heights = looked!.map(({ lack: [what, height] }) => (what === 0 ? height : Infinity));
    return passingSpeed(speeds, heights, topHeight);
  };

  let speed: number | undefined;
  let searched: SearchedOptimum | undefined;
  for (let turn = 0; turn < MOST_TURNS; turn++) {
    const before = searched?.best.place.join();
    searched = await searchOptimum(room.sizes, tub, openLookAt(roomAt(speed), sample, work.perform));
    tell(((turn + 1) * 0.6) / MOST_TURNS);
    if (searched.best.place.join() === before) break;
    speed = await keptAt(searched.best.place);
  }
  const { place } = searched!.best;
  const limitOf = (source: Case): Promise<Limit> =>
    work.ofCase(source, async (perform) => {
      const found = await limitsBy(
        { source, tub, topHeight },
        perform,
        () => ['speed'],
        () => {},
      );
      return found!.limits[0]!;
    });
  const { simulation } = room.source;
  const there = { ...room.setupAt(place).source, simulation };
  const limits = { best: await limitOf(there), own: await limitOf(room.source) };
  tell(0.75);
  const judged = await work.ofCase(there, (perform) => judgeOptimum(there, tub, perform));
  tell(0.8);
  const kept = limits.best.value ?? speed;
  const beside = await besideBest(
    roomAt(kept),
    searched!,
    { tub, topHeight, sample: judged.sample },
    beyondAt(place).map(({ axis, setup }) => ({ axis, setup: at(kept)(setup) })),
    work,
    (done) => tell(0.8 + 0.2 * done),
  );
  const does = limits.best.value !== null;
  return {
    found: { tub, does, place, judged, ...beside },
    tried: [{ tub, topHeight: judged.pick.height?.topHeight }],
    limits,
  };
}
