import type { Case, UncertainInput } from '@tubgap/casefile';
import { carColumn, type Tub } from '@tubgap/core';
import { BLOCK, firstWithin } from '@tubgap/statistics';
import { DEGREE, SIXTEENTH } from '@tubgap/units';
import { aboveFloors, type Floors, floorsOf, pilotRuns } from './floors.ts';
import { GAP_ANGLES, middleStaticGaps } from './pick.ts';
import { createBlockRoom } from './run-risk.ts';
import { emptyRunTallies, type RunTallies } from './run-tallies.ts';
import { tallyRuns } from './runner.ts';
import { tallySeasons } from './season-risk.ts';
import { type SetOut, setOutOf } from './set-out.ts';
import type { CaseSetup } from './setup.ts';
import { emptyTally, HEIGHT_STEPS, type Tally, type TubTally, touchesByHeight } from './tally.ts';

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
function measuredCar(setup: CaseSetup): CaseSetup['tyres'] {
  const columns = [carColumn('topHeightError'), carColumn('centreError')];
  const exact = new Map<UncertainInput, UncertainInput>();
  const exactly = (input: UncertainInput): UncertainInput => {
    const made = exact.get(input) ?? { ...input, law: { kind: 'constant', value: 0 } };
    exact.set(input, made);
    return made;
  };
  return setup.tyres.map((tyre) => ({
    ...tyre,
    car: tyre.car.map((input, c) => (columns.includes(c) ? exactly(input) : input)),
  }));
}

/**
 * Whether seasons have to be looked at: not where the accepted run risks of a season, added up, are within its own
 * accepted risk, for the chance of any of several events is at most the sum of theirs.
 */
function seasonsMatter({ accept, tyres }: Case): boolean {
  const runs = tyres.reduce((sum, tyre) => sum + tyre.runsPerSeason, 0);
  return runs * accept.runRisk > accept.seasonRisk;
}

/**
 * Height that each tub of a setup needs for the accepted risks, m, from the same runs and cars whatever the setup.
 * @param floors  no tub is said to need less
 */
function neededHeights(
  source: Case,
  setup: CaseSetup,
  draws: number,
  cars: number,
  floors: Floors,
): number[] {
  const { accept, simulation } = source;
  const room = aboveFloors(createBlockRoom(setup), floors);
  const runs: RunTallies = emptyRunTallies(setup);
  tallyRuns(setup, simulation.seed, draws, 0, Math.ceil(draws / BLOCK), room, runs);
  const ofRuns = Math.max(LEAST, Math.round(accept.runRisk * draws));
  const heights = setup.clearance.tubs.map((_, t) =>
    Math.max(...runs.tyres.map((tally) => heightWith(tally.tubs[t]!, ofRuns))),
  );
  if (cars === 0) return heights;
  const seasons: Tally = emptyTally(setup.lowestHeights, setup.clearance.hardPoints.length);
  tallySeasons(setup, simulation.seed, 0, cars, room, seasons);
  const ofSeasons = Math.max(LEAST, Math.round(accept.seasonRisk * cars));
  return heights.map((height, t) => Math.max(height, heightWith(seasons.tubs[t]!, ofSeasons)));
}

const withTubs = (setup: CaseSetup, tubs: readonly Tub[], lowest: number): CaseSetup => ({
  ...setup,
  lowestHeights: tubs.map(() => lowest),
  clearance: { ...setup.clearance, tubs },
});

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
  const tub = setup.clearance.tubs[chosen]!;
  const lowest = setup.lowestHeights[chosen]!;
  const planned = withTubs(setup, [tub], lowest);
  // What is counted is rarer than this, so that lower heights are in no question.
  const rarer = Math.max(source.accept.runRisk, LEAST / draws);
  const floors = floorsOf(pilotRuns(planned, source.simulation.seed, createBlockRoom(planned)), rarer);
  const plan = neededHeights(source, planned, draws, cars, floors)[0]!;
  const built = BUILT.map(
    ({ ahead, loss }): Tub => ({
      ...tub,
      radius: tub.radius - loss,
      centreForward: tub.centreForward + ahead,
    }),
  );
  const measured = { ...setup, tyres: measuredCar(setup) };
  // The crown of a smaller arc may stand lower by what it is smaller. Too high a floor would only allow less.
  const smallest = SIXTEENTH * LOSSES.at(-1)!;
  const floorsBuilt = floors.map(([floor]) => built.map(() => Math.max(lowest, floor! - smallest)));
  const needed = neededHeights(source, withTubs(measured, built, lowest), draws, cars, floorsBuilt);

  /** Height that is left over in the plan for one way of building, m. */
  const spare = (ahead: number, loss: number): number => {
    const at = BUILT.findIndex((row) => row.ahead === ahead && row.loss === loss);
    // A smaller arc about the same centre has its crown lower by what it is smaller.
    return plan - needed[at]! - loss;
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
