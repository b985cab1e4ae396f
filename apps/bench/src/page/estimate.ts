import type { Case } from '@tubgap/casefile';
import { type OutlineCloud, type Tally, type TightestRuns, tightestOfBoth } from '@tubgap/simulation';
import type { Answer, Question } from '../worker/messages.ts';
import { openWorker, type PageWorker } from './page-worker.ts';
import { type RankedRuns, rankedRuns } from './ranked-runs.ts';
import { closeRisk } from './risks.ts';

/** Why nothing is counted where no worker starts. */
const NO_WORKER =
  'This browser lets the page start no worker, so nothing is counted: open the page in another browser, or from the disk of this computer.';
/** Runs that the page counts at most: the last is there in a second or so. */
const MOST_RUNS = 100_000;
/** Cars whose seasons it counts at most. */
const MOST_CARS = 1000;

/** Weighted runs, and of the counted ones those where their mixture does not lead to. */
type Weighted = Omit<Extract<Answer, { kind: 'weighted' }>, 'kind' | 'id'>;

/** What is known so far of the place in hand. */
export interface Known {
  runs?: { tally: Tally; tightest: TightestRuns; done: boolean };
  weighted?: Weighted;
  seasons?: { tally: Tally; done: boolean };
  cloud?: OutlineCloud;
  ranked?: RankedRuns;
  /** The ranked runs are those of another place of the tub; here there are none yet. */
  rankedElsewhere?: true;
  /** Why nothing more can be said. */
  problem?: string;
  /** All this was counted for the question before; the newest one has no answer yet. */
  outdated?: true;
}

/** What is asked: a case, a tub and a tyre of it. */
export interface Asked {
  source: Case;
  tub: number;
  tyre: number;
  /** Tells cases apart but for where the tub stands. */
  inputs: string;
}

/** The workers behind the page: one that counts at once, one that weighs rare runs when all is counted. */
export interface Estimator {
  ask: (asked: Asked) => void;
}

type EstimateWorker = PageWorker<Question, Answer>;

let begun: EstimateWorker | undefined;

/** Begins the worker that will count, while the page is still being made: it takes as long to start. */
export function beginWorker(): void {
  begun = openWorker();
}

/** Starts the workers; `tell` is called with everything known of the newest question whenever that has grown. */
export function openEstimator(tell: (known: Known) => void): Estimator {
  const counter: EstimateWorker = begun ?? openWorker();
  begun = undefined;
  let refiner: EstimateWorker | undefined;
  let refining = false;
  let failed = false;
  let id = 0;
  let inputs = '';
  let known: Known = {};
  let told: Known = {};
  let question: Question | undefined;
  const say = (what: Known): void => {
    told = what;
    tell(what);
  };
  const rank = (): void => {
    const { runs } = known;
    const risk = closeRisk(known);
    if (runs === undefined || risk === undefined) return;
    const kept = known.weighted ? tightestOfBoth(runs.tightest, known.weighted.tightest) : runs.tightest;
    const ranked = rankedRuns(risk, question!.source.accept.runRisk, kept, runs.tally.events, runs.done);
    const { rankedElsewhere: _, ...rest } = known;
    if (ranked !== undefined) known = { ...rest, ranked };
  };

  const take = (data: Answer): void => {
    if (data.id !== id) return;
    switch (data.kind) {
      case 'runs':
        known = { ...known, runs: { tally: data.tally, tightest: data.tightest, done: data.done } };
        rank();
        break;
      case 'seasons':
        known = { ...known, seasons: { tally: data.tally, done: data.done } };
        if (data.done) refine();
        break;
      case 'cloud':
        known = { ...known, cloud: data.cloud };
        break;
      case 'weighted':
        refining = false;
        known = {
          ...known,
          weighted: { tally: data.tally, unseen: data.unseen, tightest: data.tightest },
        };
        rank();
        break;
      case 'problem':
        known = { ...known, problem: data.message };
    }
    say(known);
  };
  const fail = (): void => {
    failed = true;
    known = { ...known, problem: NO_WORKER };
    say(known);
  };
  const refine = (): void => {
    if (refiner === undefined) {
      refiner = openWorker();
      refiner.listen(take, fail);
    }
    refining = true;
    refiner.ask({ ...question!, kind: 'refine' });
  };
  counter.listen(take, fail);

  return {
    ask: (asked) => {
      id++;
      // Its longest step cannot be stopped from within.
      if (refining) {
        refiner?.end();
        refiner = undefined;
        refining = false;
      }
      const { simulation } = asked.source;
      const withCloud = asked.inputs !== inputs || known.cloud === undefined;
      inputs = asked.inputs;
      known = withCloud
        ? {}
        : {
            ...(known.cloud && { cloud: known.cloud }),
            ...(known.ranked && { ranked: known.ranked, rankedElsewhere: true }),
          };
      question = {
        id,
        kind: 'count',
        source: asked.source,
        tub: asked.tub,
        tyre: asked.tyre,
        draws: Math.min(MOST_RUNS, simulation.draws),
        cars: Math.min(MOST_CARS, simulation.cars),
        withCloud,
      };
      counter.ask(question);
      if (failed) fail();
      else say({ ...told, outdated: true });
    },
  };
}
