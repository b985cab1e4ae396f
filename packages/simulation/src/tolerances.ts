import type { Case, CaseTub, UncertainInput } from '@tubgap/casefile';
import { BLOCK, firstWithin } from '@tubgap/statistics';
import { DEGREE, SIXTEENTH } from '@tubgap/units';
import { seasonsMatter } from './case-risks.ts';
import { floorsOf } from './floors.ts';
import { NO_CENTRES } from './importance/mixture.ts';
import { GAP_ANGLES, middleStaticGaps } from './pick.ts';
import { type SetOut, setOutOf } from './set-out.ts';
import type { CaseSetup } from './setup.ts';
import { pilotOf } from './study/pilot.ts';
import type { StudySetup } from './study/study-point.ts';
import {
  blocksOf,
  openStudy,
  performStudyTask,
  type Study,
  type StudyTask,
  type StudyTaskResult,
} from './study/study-tasks.ts';
import { HEIGHT_STEPS, type TubTally, touchesByHeight } from './tally.ts';

/** Runs and cars in which the plan and what was built are compared: the first ones of the risk. */
const RUNS = 20 * BLOCK;
const CARS = 128;

/** How much higher than the pick the tub may be set out, in sixteenths of an inch. */
const HIGHER = [0, 2, 4, 6, 8] as const;
/** Misplacements of the centre and losses of gap that are looked at, in sixteenths of an inch, ascending. */
const OFFSETS = [1, 2, 4, 8] as const;
const LOSSES = [1, 2, 4, 8] as const;

/** The comparison is made where at least this many runs, or seasons, still touch: rarer ones are too few to count on. */
const LEAST = 10;

/** Hub angles of the static gaps, degrees: those of the pick, and as far behind, where a tyre may be tight as well. */
const ANGLES = [-90, -75, -60, -45, ...GAP_ANGLES] as const;

/** What may come out otherwise than set out, one thing at a time, when the tub is set out that much higher; all m. */
export interface ToleranceRow {
  higher: number;
  /** How much lower the top may come out. */
  lower: number;
  /** How far the centre may come out ahead of and behind its place. */
  ahead: number;
  back: number;
  /** How much may be missing from the gap all round. */
  gapLess: number;
  /** Static gaps at that height, in the order of `Tolerances.angles`, as `PickedHeight.staticGaps` at the pick. */
  staticGaps: number[];
}

/** Tolerances of the tub to build. */
export interface Tolerances {
  runs: number;
  /** 0 where the accepted risk of a season cannot be what decides. */
  cars: number;
  /** rad */
  angles: number[];
  rows: ToleranceRow[];
  setOut: SetOut;
}

/** The tub as it may have been built: its centre off by so much, and so much gap missing all round, m. */
interface Built {
  ahead: number;
  loss: number;
}

const BUILT: readonly Built[] = [
  { ahead: 0, loss: 0 },
  ...OFFSETS.flatMap((n) => [
    { ahead: n * SIXTEENTH, loss: 0 },
    { ahead: -n * SIXTEENTH, loss: 0 },
  ]),
  ...LOSSES.map((n) => ({ ahead: 0, loss: n * SIXTEENTH })),
];

/** Lowest height of a tally with at most that many touches, m; Infinity when there is none. */
function heightWith(tub: TubTally, touches: number): number {
  const counts = touchesByHeight(tub.steps);
  const n = firstWithin((step) => ({ touches: counts[step]! }), HEIGHT_STEPS, touches, 'touches');
  return n === undefined ? Number.POSITIVE_INFINITY : tub.lowest + n * SIXTEENTH;
}

/** A car whose tub is built and measured: nothing of the builder's error is left to chance. */
function measuredCar(car: Case['car']): Case['car'] {
  const exactly = (input: UncertainInput): UncertainInput => ({
    ...input,
    law: { kind: 'constant', value: 0 },
  });
  return { ...car, topHeightError: exactly(car.topHeightError), centreError: exactly(car.centreError) };
}

/** The case with one tub as planned, and measured with it as it may have been built, each way beside the others. */
function toleranceSetups(source: Case, tub: CaseTub): StudySetup[] {
  const built = BUILT.map(
    ({ ahead, loss }): CaseTub => ({
      ...tub,
      diameter: tub.diameter - 2 * loss,
      centreForward: tub.centreForward + ahead,
    }),
  );
  const measured = {
    ...source,
    tubs: built,
    car: measuredCar(source.car),
    tyres: source.tyres.map((tyre) => {
      const { topHeightError: _, centreError: __, ...car } = tyre.car ?? {};
      return { ...tyre, car };
    }),
  };
  return [
    { label: 'as planned', source: { ...source, tubs: [tub] } },
    { label: 'as built', source: measured },
  ];
}

/**
 * Height that each tub of a study's setups needs for the accepted risks, m, from the same runs and cars: [setup][tub].
 * @param floor  no tub is said to need less of a tyre, m: [tyre]
 */
function neededHeights(
  study: Study,
  { accept }: Case,
  draws: number,
  cars: number,
  floor: readonly number[],
): number[][] {
  const perform = (range: StudyTask['range']): StudyTaskResult =>
    performStudyTask(study, {
      firstPoint: 0,
      endPoint: study.points.length,
      range,
      draws,
      centres: NO_CENTRES,
      heights: [],
      floor,
    });
  const counts = [
    perform({ drawnBy: 'plain', firstBlock: 0, endBlock: blocksOf(draws) }),
    ...(cars === 0 ? [] : [perform({ drawnBy: 'seasons', firstCar: 0, endCar: cars })]),
  ];
  const ofRuns = (accepted: number): number => Math.max(LEAST, Math.round(accepted * draws));
  const ofSeasons = Math.max(LEAST, Math.round(accept.seasonRisk * cars));
  return study.points.map(({ setup }, p) =>
    setup.clearance.tubs.map((_, t) =>
      Math.max(
        ...counts.flatMap((count) => {
          if (count.drawnBy === 'plain')
            return count.sums[p]!.tallies.tyres.map((tally, i) =>
              heightWith(tally.tubs[t]!, ofRuns(setup.tyres[i]!.accepted)),
            );
          return count.drawnBy === 'seasons' ? [heightWith(count.sums[p]!.counted.tubs[t]!, ofSeasons)] : [];
        }),
      ),
    ),
  );
}

/**
 * How far the tub to build may come out from where it was meant to be before it is worse than the plan whose risk was
 * accepted. The plan counts the builder's error by its law; what was built is measured and has none, so that it may be
 * off by so much until it needs the height of the plan. Both are counted in the same runs and seasons. A gap that is
 * less all round stands for anything that a gauge finds wrong: a tub too low, too small, out of place, a tyre too big.
 * Undefined when there is no tub to build.
 */
export function findTolerances(
  source: Case,
  setup: CaseSetup,
  picks: readonly { height?: { topHeight: number } }[],
  chosen: number | undefined,
): Tolerances | undefined {
  const height = chosen === undefined ? undefined : picks[chosen]?.height;
  if (chosen === undefined || height === undefined) return undefined;
  const draws = Math.min(source.simulation.draws, RUNS);
  const cars = seasonsMatter(source) ? Math.min(source.simulation.cars, CARS) : 0;
  const lowest = setup.lowestHeights[chosen]!;
  const study = openStudy(toleranceSetups(source, source.tubs[chosen]!), [lowest]);
  const [planned] = study.points;
  // What is counted is rarer than this, so that lower heights are in no question.
  const rarer = setup.tyres.map(({ accepted }) => Math.max(accepted, LEAST / draws));
  const floors = floorsOf(pilotOf(planned!, planned!, study.seed), rarer);
  // The crown of a smaller arc may stand lower by what it is smaller. Too high a floor would only allow less.
  const floor = floors.map(([ofTyre]) => ofTyre! - SIXTEENTH * LOSSES.at(-1)!);
  const [plan, needed] = neededHeights(study, source, draws, cars, floor);

  /** Height that is left over in the plan for one way of building, m. */
  const spare = (ahead: number, loss: number): number => {
    const at = BUILT.findIndex((row) => row.ahead === ahead && row.loss === loss);
    // A smaller arc about the same centre has its crown lower by what it is smaller.
    return plan![0]! - needed![at]! - loss;
  };
  const within = (higher: number, steps: readonly number[], spareOf: (offset: number) => number): number => {
    let most = 0;
    for (const n of steps) {
      if (!(spareOf(n * SIXTEENTH) + higher >= -1e-9)) break;
      most = n * SIXTEENTH;
    }
    return most;
  };
  const rows = HIGHER.map((n): ToleranceRow => {
    const higher = n * SIXTEENTH;
    const lower = Math.round((spare(0, 0) + higher) / SIXTEENTH) * SIXTEENTH;
    return {
      higher,
      lower: Math.max(0, Math.min(lower, height.topHeight + higher - lowest)),
      ahead: within(higher, OFFSETS, (offset) => spare(offset, 0)),
      back: within(higher, OFFSETS, (offset) => spare(-offset, 0)),
      gapLess: within(higher, LOSSES, (loss) => spare(0, loss)),
      staticGaps: middleStaticGaps(setup, chosen, height.topHeight + higher, ANGLES),
    };
  });
  return {
    runs: draws,
    cars,
    angles: ANGLES.map((degrees) => degrees * DEGREE),
    rows,
    setOut: setOutOf(source, chosen, height.topHeight, rows),
  };
}
