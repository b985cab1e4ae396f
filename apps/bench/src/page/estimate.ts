import type { Case } from '@tubgap/casefile';
import {
  type OutlineCloud,
  type RiskByHeight,
  type Tally,
  type TightestRuns,
  type TubRisks,
  tightestOfBoth,
  tubRisks,
} from '@tubgap/simulation';
import type { Answer, Question } from '../worker/messages.ts';
import { openWorker, type PageWorker, takeBegunWorker } from './page-worker.ts';
import { type RankedRuns, rankedRuns } from './ranked-runs.ts';

/** Why nothing is counted where no worker starts. */
const NO_WORKER =
  'This browser lets the page start no worker, so nothing is counted: open the page in another browser, or from the disk of this computer.';
/** Runs that the page counts at most: the last is there in a second or so. */
const MOST_RUNS = 100_000;
/** Cars whose seasons it counts at most. */
const MOST_CARS = 1000;

type AnswerOf<Kind extends Answer['kind']> = Extract<Answer, { kind: Kind }>;

/** What is known so far of the place in hand. */
export interface Known {
  /** Counts of the tyre shown, and its risks by height; `weighed` where these hold weighted runs as well. */
  runs?: { tally: Tally; risks: TubRisks; weighed: boolean; done: boolean };
  /** The same of the car with all its tyres. */
  seasons?: { tally: Tally; risk: RiskByHeight; done: boolean };
  cloud?: OutlineCloud;
  ranked?: RankedRuns;
  /** The ranked runs are those of another place of the tub; here there are none yet. */
  rankedElsewhere?: true;
  /** Why nothing more can be said. */
  problem?: string;
  /** All this is of the pick itself. */
  picked?: true;
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
  /** What the pick knows of it: then nothing is counted. */
  picked: Known | undefined;
}

/** The workers behind the page: one that counts at once, one that weighs rare runs when all is counted. */
export interface Estimator {
  ask: (asked: Asked) => void;
}

type EstimateWorker = PageWorker<Question, Answer>;

/** Starts the workers; `tell` is called with everything known of the newest question whenever that has grown. */
export function openEstimator(report: (known: Known) => void): Estimator {
  const counter: EstimateWorker = takeBegunWorker() ?? openWorker();
  let refiner: EstimateWorker | undefined;
  let refining = false;
  let failed = false;
  let id = 0;
  let inputs = '';
  let known: Known = {};
  let reported: Known = {};
  let question: Question | undefined;
  let counted: AnswerOf<'runs'> | undefined;
  const say = (what: Known): void => {
    reported = what;
    report(what);
  };
  const takeRuns = ({ tally, tightest, done }: AnswerOf<'runs'>, weighted?: AnswerOf<'weighted'>): void => {
    const [risks] = tubRisks(tally, weighted?.unseen ?? tally, weighted?.tally);
    known = { ...known, runs: { tally, risks: risks!, weighed: weighted !== undefined, done } };
    const kept: TightestRuns = weighted ? tightestOfBoth(tightest, weighted.tightest) : tightest;
    const ranked = rankedRuns(risks!.touch, question!.source.accept.runRisk, kept, tally.events, done);
    const { rankedElsewhere: _, ...rest } = known;
    if (ranked !== undefined) known = { ...rest, ranked };
  };

  const take = (data: Answer): void => {
    if (data.id !== id) return;
    switch (data.kind) {
      case 'runs':
        counted = data;
        takeRuns(data);
        if (data.done) refine(data);
        break;
      case 'seasons': {
        const { tally, done } = data;
        const [risks] = tubRisks(tally, tally, undefined);
        known = { ...known, seasons: { tally, risk: risks!.touch, done } };
        break;
      }
      case 'cloud':
        known = { ...known, cloud: data.cloud };
        break;
      case 'weighted':
        refining = false;
        takeRuns(counted!, data);
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
  const refine = ({ counted: did }: AnswerOf<'runs'>): void => {
    if (refiner === undefined) {
      refiner = openWorker();
      refiner.listen(take, fail);
    }
    refining = true;
    refiner.ask({ ...question!, kind: 'refine', counted: did! });
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
      const { picked } = asked;
      if (picked !== undefined) known = { ...(!withCloud && { cloud: known.cloud! }), ...picked };
      else
        known = withCloud
          ? {}
          : {
              ...(known.cloud && { cloud: known.cloud }),
              ...(known.ranked && { ranked: known.ranked, rankedElsewhere: true }),
            };
      question = {
        id,
        kind: picked === undefined ? 'count' : 'look',
        source: asked.source,
        tub: asked.tub,
        tyre: asked.tyre,
        draws: Math.min(MOST_RUNS, simulation.draws),
        cars: Math.min(MOST_CARS, simulation.cars),
        withCloud,
      };
      counter.ask(question);
      if (failed) fail();
      else say(picked === undefined ? { ...reported, outdated: true } : known);
    },
  };
}
