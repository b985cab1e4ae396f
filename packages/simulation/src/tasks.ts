import type { Case, CaseTub } from '@tubgap/casefile';
import { BLOCK } from '@tubgap/statistics';
import { type CaseRisks, caseRisks } from './case-risks.ts';
import { ModelRangeError } from './count.ts';
import { aboveFloors, type Floors, findFloors } from './floors.ts';
import { type HardCounts, type HardFigures, hardFigures } from './hard-points/hard-figures.ts';
import { type HardPlace, inspectHardPoints } from './hard-points/hard-gaps.ts';
import { touchCentres } from './importance/centres.ts';
import { type Centres, NO_CENTRES } from './importance/mixture.ts';
import { type NormalSpace, normalSpace } from './importance/normal-space.ts';
import {
  addWeightedTallies,
  emptyWeightedTallies,
  type WeightedTallies,
} from './importance/weighted-risk.ts';
import { mixtureSeasons } from './importance/weighted-seasons.ts';
import { addWeighted, emptyWeighted, type WeightedTally } from './importance/weighted-tally.ts';
import { type CarSpread, findCarSpread } from './insight/car-spread.ts';
import { changedSetups } from './insight/changes.ts';
import { type Drivers, findDrivers } from './insight/drivers.ts';
import { type Inspection, type InspectionResult, inspectCase } from './inspections.ts';
import { type Trials, trialSetups } from './limits/trials.ts';
import { findNamedRuns, type NamedRuns, type NamedSteps } from './replay/named-runs.ts';
import { type BlockRoom, createBlockRoom } from './run-risk.ts';
import { addRunTallies, emptyRunTallies, type RunTallies } from './run-tallies.ts';
import { mixtureRuns, ROUND_BLOCKS, tallyRuns, weightedBlocks, weightedParts } from './runner.ts';
import { tallySeasons } from './season-risk.ts';
import { type CaseSetup, caseSetup } from './setup.ts';
import type { StudySetup } from './study/study-point.ts';
import { type CarRange, countedSeasons, weightedSeasons } from './study/study-seasons.ts';
import {
  openStudy,
  performStudyTask,
  type Study,
  type StudyTask,
  type StudyTaskResult,
} from './study/study-tasks.ts';
import { addTally, emptyTally, type Tally } from './tally.ts';

/** One part of a simulation that can be worked out anywhere: the same task gives the same bits. */
export type Task =
  /** Heights that will be asked about, in whichever tub, m. */
  | { kind: 'floors'; asked: readonly number[] }
  | { kind: 'centres'; floors: Floors }
  | (CountedFrom & { kind: 'runs' | 'tail'; firstBlock: number; endBlock: number })
  | (CountedFrom & { kind: 'seasons' | 'tail seasons'; firstCar: number; endCar: number })
  | { kind: 'hard points'; centres: Centres; counts: HardCounts; place?: HardPlace }
  | { kind: 'named runs'; centres: Centres; wanted: readonly (readonly NamedSteps[])[] }
  | (PickPlace & { kind: 'drivers' | 'car spread' })
  | { kind: 'variants'; variants: Variants; part: StudyTask }
  | { kind: 'trials'; trials: Trials; part: StudyTask }
  | Inspection;

/** What runs that are counted are told apart by, and from which heights on; without floors from all. */
interface CountedFrom {
  centres: Centres;
  floors?: Floors;
}

/** Setups that a closer look puts through the pick's draws, told by what they are: a case is long to hand over. */
export type Variants =
  | { of: 'changes'; tyre: number; tub: number }
  /** The case in these tubs, whichever it has itself. */
  | { of: 'tubs'; tubs: readonly CaseTub[] };

const variantSetups = (source: Case, variants: Variants): StudySetup[] =>
  variants.of === 'changes'
    ? changedSetups(source, variants.tyre, variants.tub).setups
    : [{ label: source.name, source: { ...source, tubs: [...variants.tubs] } }];

/** The pick that an insight is about. */
export interface PickPlace {
  centres: Centres;
  tyre: number;
  tub: number;
  /** m */
  topHeight: number;
}

export type TaskResult =
  | { kind: 'floors'; floors: Floors }
  | { kind: 'centres'; centres: Centres }
  | { kind: 'runs'; tallies: RunTallies }
  | { kind: 'seasons'; tally: Tally; unseen: Tally }
  | { kind: 'tail'; tallies: WeightedTallies }
  | { kind: 'tail seasons'; tally: WeightedTally }
  | { kind: 'drivers'; drivers: Drivers }
  | { kind: 'variants'; part: StudyTaskResult }
  /** Undefined where a setup leaves what the model knows. */
  | { kind: 'trials'; part: StudyTaskResult | undefined }
  | { kind: 'car spread'; spread: CarSpread | null }
  | { kind: 'hard points'; figures: HardFigures[][] }
  | { kind: 'named runs'; named: NamedRuns[][] }
  | InspectionResult;

const BLOCKS_A_TASK = 8;

/** What a worker keeps between the tasks of one case. */
export interface Workplace {
  source: Case;
  setup: CaseSetup;
  space: NormalSpace;
  room: BlockRoom;
  /** Studies of variants of the case, by what they are: made ready once. */
  studies: Map<string, Study>;
}

export function openWorkplace(source: Case): Workplace {
  const setup = caseSetup(source);
  return { source, setup, space: normalSpace(setup), room: createBlockRoom(setup), studies: new Map() };
}

/** The study of some setups, made ready with the first of its tasks. @param asked  what tells them from others */
function studyOf({ studies }: Workplace, asked: Variants | Trials, setups: () => StudySetup[]): Study {
  const name = JSON.stringify(asked);
  const known = studies.get(name) ?? openStudy(setups());
  studies.set(name, known);
  return known;
}

/** What the model does not know of a setup is told, not thrown: a search goes on with the others. */
function performTrials(place: Workplace, trials: Trials, part: StudyTask): StudyTaskResult | undefined {
  try {
    return performStudyTask(
      studyOf(place, trials, () => trialSetups(place.source, trials)),
      part,
    );
  } catch (error) {
    if (error instanceof ModelRangeError) return undefined;
    throw error;
  }
}

const ranges = (end: number, step: number): [number, number][] =>
  Array.from({ length: Math.ceil(end / step) }, (_, i) => [i * step, Math.min(end, (i + 1) * step)]);

/** Weighted cars, where the plain ones cannot support the accepted risk. */
const weighedCars = ({ simulation, accept }: Case): CarRange[] =>
  weightedSeasons(simulation.cars, accept.seasonRisk);

/** Plain seasons of all cars of a case. */
export const seasonTasks = (source: Case, from: CountedFrom): Task[] =>
  countedSeasons(source.simulation.cars).map(
    ({ firstCar, endCar }): Task => ({ kind: 'seasons', firstCar, endCar, ...from }),
  );

/** The look that finds the floors of everything that is counted. @param asked  heights that will be asked about, m */
export const floorTasks = (asked: readonly number[] = []): Task[] => [{ kind: 'floors', asked }];

/** The search for centres, and the seasons of a case where they need none. */
export function openingTasks(source: Case, floors: Floors): Task[] {
  const seasons = weighedCars(source).length > 0 ? [] : seasonTasks(source, { centres: NO_CENTRES, floors });
  return [{ kind: 'centres', floors }, ...seasons];
}

/** The plain runs of some rounds, counted from 0; none when all draws are done. */
export function roundTasks(source: Case, from: CountedFrom, firstRound: number, endRound: number): Task[] {
  const end = Math.min(Math.ceil(source.simulation.draws / BLOCK), endRound * ROUND_BLOCKS);
  const first = firstRound * ROUND_BLOCKS;
  return ranges(Math.max(0, end - first), BLOCKS_A_TASK).map(
    ([start, to]): Task => ({ kind: 'runs', firstBlock: first + start, endBlock: first + to, ...from }),
  );
}

/** The first weighted blocks. */
export const mixtureTasks = (from: CountedFrom, blocks: number): Task[] =>
  weightedParts(blocks).map(({ firstBlock, endBlock }) => ({ kind: 'tail', firstBlock, endBlock, ...from }));

/** The weighted tasks, and the seasons that stand beside weighted ones. */
export function weightedTasks(source: Case, from: CountedFrom): Task[] {
  const weighed = weighedCars(source);
  return [
    ...mixtureTasks(from, weightedBlocks(source)),
    ...(weighed.length > 0 ? seasonTasks(source, from) : []),
    ...weighed.map(({ firstCar, endCar }): Task => ({ kind: 'tail seasons', firstCar, endCar, ...from })),
  ];
}

/** What drives the pick, and how differently cars behave there. */
export function insightTasks(place: PickPlace): Task[] {
  return [
    { kind: 'drivers', ...place },
    { kind: 'car spread', ...place },
  ];
}

/** The hard points of a case, at its pick where there is one; none when the case has no hard points. */
export function hardPointTasks(setup: CaseSetup, found: Findings, place: PickPlace | undefined): Task[] {
  if (setup.clearance.hardPoints.length === 0) return [];
  const counts = {
    touches: found.runs.tyres.map((tally) => tally.hardTouches),
    unseen: found.runs.unseen.tyres.map((tally) => tally.hardTouches),
    events: found.runs.all.events,
  };
  return [
    {
      kind: 'hard points',
      centres: found.centres,
      counts,
      ...(place === undefined ? {} : { place: { tub: place.tub, topHeight: place.topHeight } }),
    },
  ];
}

/** Works out one task. @throws ModelRangeError when a draw leaves what the model knows */
export function performTask(place: Workplace, task: Task): TaskResult {
  const { setup, space } = place;
  const { seed, draws } = place.source.simulation;
  const room = aboveFloors(place.room, 'floors' in task ? task.floors : undefined);
  switch (task.kind) {
    case 'floors':
      return { kind: 'floors', floors: findFloors(place.source, setup, room, task.asked) };
    case 'centres':
      return { kind: 'centres', centres: touchCentres(setup, space, seed, room) };
    case 'runs': {
      const tallies = emptyRunTallies(setup);
      const seeing = { space, centres: task.centres };
      tallyRuns(setup, seed, draws, task.firstBlock, task.endBlock, room, tallies, seeing);
      return { kind: 'runs', tallies };
    }
    case 'seasons': {
      const tally = emptyTally(setup.lowestHeights, setup.clearance.hardPoints.length);
      const unseen = emptyTally(setup.lowestHeights, setup.clearance.hardPoints.length);
      const seeing = { space, centres: task.centres };
      tallySeasons(setup, seed, task.firstCar, task.endCar, room, tally, { unseen, seeing });
      return { kind: 'seasons', tally, unseen };
    }
    case 'tail': {
      const range = { ...task, drawnBy: 'weighted' as const };
      return { kind: 'tail', tallies: mixtureRuns(setup, task.centres, seed, range, room, space) };
    }
    case 'drivers': {
      const { centres, tyre, tub, topHeight } = task;
      return { kind: 'drivers', drivers: findDrivers(setup, centres, seed, tyre, tub, topHeight) };
    }
    case 'variants': {
      const { variants, part } = task;
      const study = studyOf(place, variants, () => variantSetups(place.source, variants));
      return { kind: 'variants', part: performStudyTask(study, part) };
    }
    case 'trials':
      return { kind: 'trials', part: performTrials(place, task.trials, task.part) };
    case 'car spread': {
      const { centres, tyre, tub, topHeight } = task;
      return {
        kind: 'car spread',
        spread: findCarSpread(setup, centres, seed, tyre, tub, topHeight, weightedBlocks(place.source)),
      };
    }
    case 'hard points': {
      const look = inspectHardPoints(place.source, setup, task.centres, task.place);
      return { kind: 'hard points', figures: hardFigures(setup, task.counts, look) };
    }
    case 'named runs': {
      const { centres, wanted } = task;
      return { kind: 'named runs', named: findNamedRuns(place.source, setup, space, centres, wanted, room) };
    }
    case 'tail seasons':
      return {
        kind: 'tail seasons',
        tally: mixtureSeasons(setup, space, task.centres, seed, task.firstCar, task.endCar, room),
      };
    default:
      return inspectCase(place.source, setup, room, task);
  }
}

/** What the tasks of a case have found, put together in the order of the tasks. */
export interface Findings {
  runs: RunTallies;
  seasons: Tally;
  /** Of them those of cars where the mixture of the weighted cars does not lead to. */
  unseenSeasons: Tally;
  tail: WeightedTallies;
  mixtureSeasons: WeightedTally | undefined;
  centres: Centres;
  /** Risks are told from there on; empty: from the lowest heights on. */
  floors: Floors;
}

/** Lowest height of a tub from which on every tyre's risk is told, m. */
export const reportedFrom = ({ runs, floors }: Pick<Findings, 'runs' | 'floors'>, tub: number): number =>
  Math.max(runs.all.tubs[tub]!.lowest, ...floors.map((own) => own[tub]!));

/** Risks by height of all that was found. */
export const findingRisks = ({ runs, tail, seasons, mixtureSeasons, unseenSeasons }: Findings): CaseRisks =>
  caseRisks(runs, tail, seasons, mixtureSeasons, unseenSeasons);

/**
 * Puts the results together in the order of the tasks, whatever the order in which they were worked out: sums of
 * weights then come out the same to the last bit.
 */
export function gather(setup: CaseSetup, results: readonly TaskResult[]): Findings {
  const { tubs, hardPoints } = setup.clearance;
  const found: Findings = {
    runs: emptyRunTallies(setup),
    seasons: emptyTally(setup.lowestHeights, setup.clearance.hardPoints.length),
    unseenSeasons: emptyTally(setup.lowestHeights, setup.clearance.hardPoints.length),
    tail: emptyWeightedTallies(setup),
    mixtureSeasons: undefined,
    centres: NO_CENTRES,
    floors: [],
  };
  for (const result of results) {
    switch (result.kind) {
      case 'floors':
        found.floors = result.floors;
        break;
      case 'centres':
        found.centres = result.centres;
        break;
      case 'runs':
        addRunTallies(found.runs, result.tallies);
        break;
      case 'seasons':
        addTally(found.seasons, result.tally);
        addTally(found.unseenSeasons, result.unseen);
        break;
      case 'tail':
        addWeightedTallies(found.tail, result.tallies);
        break;
      case 'tail seasons':
        found.mixtureSeasons ??= emptyWeighted(tubs.length, hardPoints.length);
        addWeighted(found.mixtureSeasons, result.tally);
        break;
      default:
    }
  }
  return found;
}
