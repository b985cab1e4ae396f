import type { Case } from '@tubgap/casefile';
import {
  addWeightedTallies,
  type BlockRoom,
  type CaseSetup,
  caseSetup,
  createBlockRoom,
  emptyRunSteps,
  emptyRunTallies,
  emptyTally,
  emptyWeightedTallies,
  focusOn,
  keepRunSteps,
  keepTightest,
  mixtureRuns,
  normalSpace,
  outlineCloud,
  type TightestRuns,
  tallyRuns,
  tallySeasons,
  touchCentres,
  unseenRuns,
  weightedBlocks,
  weightedParts,
} from '@tubgap/simulation';
import { BLOCK } from '@tubgap/statistics';
import type { Answer, Question } from './messages.ts';

/** Blocks of draws that the outlines come from. */
const INSPECTION_BLOCKS = 2;
const CLOUD_RUNS = 60;
const CLOUD_QUANTILES = [0.5, 0.99, 0.999] as const;
/** Cars of one step of the season risk. */
const CARS_A_STEP = 8;

/** Answer without the number of its question. */
type AnswerBody = Answer extends infer One ? (One extends Answer ? Omit<One, 'id'> : never) : never;

/** Tells the page something, and whether it still wants to know. */
export interface Listener {
  tell: (answer: AnswerBody) => void;
  /** Lets newer questions in; false when there is one. */
  goOn: () => Promise<boolean>;
}

/** The part of a case that a question is about, room for its draws, and its own place among the tyres. */
interface Part {
  setup: CaseSetup;
  room: BlockRoom;
  tyre: number;
}

function partOf(source: Case, tub: number, tyre: number | undefined): Part {
  const focus = focusOn(caseSetup(source), tyre === undefined ? { tub } : { tub, tyre });
  return { ...focus, room: createBlockRoom(focus.setup) };
}

/** Does steps one after another and tells after the first, when they have doubled, and at the end. */
async function stepwise(
  steps: number,
  listener: Listener,
  perform: (step: number) => void,
  tell: (done: boolean) => void,
): Promise<boolean> {
  let next = 1;
  for (let step = 0; step < steps; step++) {
    perform(step);
    const done = step === steps - 1;
    if (done || step + 1 >= next) {
      tell(done);
      next = 2 * (step + 1);
    }
    if (!(await listener.goOn())) return false;
  }
  return true;
}

/** How the outlines scatter. */
function look({ setup, room, tyre }: Part, { source, withCloud }: Question, listener: Listener): void {
  if (!withCloud) return;
  const { seed } = source.simulation;
  const cloud = outlineCloud(setup, tyre, seed, INSPECTION_BLOCKS, CLOUD_RUNS, CLOUD_QUANTILES, room);
  listener.tell({ kind: 'cloud', cloud, quantiles: CLOUD_QUANTILES });
}

/** Looks at the outlines of a case of which all else is known. */
export async function lookAt(question: Question, listener: Listener): Promise<void> {
  look(partOf(question.source, question.tub, question.tyre), question, listener);
}

/** Counts runs of the tyre shown, looks at its outlines, and counts seasons of the whole car. */
export async function count(question: Question, listener: Listener): Promise<void> {
  const { source, draws, cars } = question;
  const { seed } = source.simulation;
  const part = partOf(source, question.tub, question.tyre);
  const runs = emptyRunTallies(part.setup);
  const tightest: TightestRuns = [];
  const blocks = Math.ceil(draws / BLOCK);
  const lookedAt = Math.min(INSPECTION_BLOCKS, blocks) - 1;
  const did = emptyRunSteps(draws);
  const counted = await stepwise(
    blocks,
    listener,
    (block) => {
      tallyRuns(part.setup, seed, draws, block, block + 1, part.room, runs, undefined, (outcome) =>
        keepRunSteps(outcome, part.tyre, block, did),
      );
      keepTightest(part.setup, part.tyre, part.room, Math.min(BLOCK, draws - block * BLOCK), tightest);
      if (block === lookedAt) look(part, question, listener);
    },
    (done) =>
      listener.tell({
        kind: 'runs',
        tally: runs.tyres[part.tyre]!,
        tightest,
        done,
        ...(done && { counted: did }),
      }),
  );
  if (!counted) return;
  const car = partOf(source, question.tub, undefined);
  const seasons = emptyTally(car.setup.lowestHeights, car.setup.clearance.hardPoints.length);
  await stepwise(
    Math.ceil(cars / CARS_A_STEP),
    listener,
    (step) =>
      tallySeasons(
        car.setup,
        seed,
        step * CARS_A_STEP,
        Math.min(cars, (step + 1) * CARS_A_STEP),
        car.room,
        seasons,
      ),
    (done) => listener.tell({ kind: 'seasons', tally: seasons, done }),
  );
}

/** Weighs runs that are moved to where touches happen: what counting leaves open where they are rare. */
export async function refine({ source, tub, tyre, counted }: Question, listener: Listener): Promise<void> {
  const { seed } = source.simulation;
  const part = partOf(source, tub, tyre);
  const space = normalSpace(part.setup);
  const centres = touchCentres(part.setup, space, seed, part.room);
  const tail = emptyWeightedTallies(part.setup);
  const tightest: TightestRuns = [];
  for (const range of weightedParts(weightedBlocks(source))) {
    if (!(await listener.goOn())) return;
    const look = (): void => keepTightest(part.setup, part.tyre, part.room, BLOCK, tightest);
    addWeightedTallies(tail, mixtureRuns(part.setup, centres, seed, range, part.room, space, look));
  }
  const unseen = unseenRuns({ space, centres }, seed, counted!);
  listener.tell({ kind: 'weighted', tally: tail.tyres[part.tyre]!, unseen, tightest });
}
