import type { Case } from '@tubgap/casefile';
import {
  type DrawnRun,
  lowestAccepted,
  type OutlineCloud,
  type Risk,
  SIXTEENTH,
  stepAt,
  type Tally,
  type TubRisks,
  tubRisks,
} from '@tubgap/simulation';
import type { Answer, Question } from '../worker/messages.ts';

/** Runs that the page counts at most: the last is there in a second or so. */
const MOST_RUNS = 100_000;
/** Cars whose seasons it counts at most. */
const MOST_CARS = 1000;

/** Weighted runs, and of the counted ones those where their mixture does not lead to. */
type Weighted = Pick<Extract<Answer, { kind: 'weighted' }>, 'tally' | 'unseen'>;

/** What is known so far of the place in hand. */
export interface Known {
  runs?: { tally: Tally; done: boolean };
  weighted?: Weighted;
  seasons?: { tally: Tally; done: boolean };
  cloud?: OutlineCloud;
  ranked?: DrawnRun[];
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

/** A worker that runs the page's own script, strictly and with its names to itself, as the page does. */
export function openWorker(): Worker {
  const script = document.getElementById('engine')!.textContent!;
  const address = URL.createObjectURL(
    new Blob([`(()=>{'use strict';${script}\n})()`], { type: 'text/javascript' }),
  );
  return new Worker(address);
}

let begun: Worker | undefined;

/** Begins the worker that will count, while the page is still being made: it takes as long to start. */
export function beginWorker(): void {
  begun = openWorker();
}

/** Starts the workers; `tell` is called with everything known of the newest question whenever that has grown. */
export function openEstimator(tell: (known: Known) => void): Estimator {
  const counter = begun ?? openWorker();
  begun = undefined;
  let refiner: Worker | undefined;
  let refining = false;
  let id = 0;
  let inputs = '';
  let known: Known = {};
  let told: Known = {};
  let question: Question | undefined;
  const say = (what: Known): void => {
    told = what;
    tell(what);
  };

  const take = ({ data }: MessageEvent<Answer>): void => {
    if (data.id !== id) return;
    switch (data.kind) {
      case 'runs':
        known = { ...known, runs: { tally: data.tally, done: data.done } };
        break;
      case 'seasons':
        known = { ...known, seasons: { tally: data.tally, done: data.done } };
        if (data.done) refine();
        break;
      case 'cloud':
        known = { ...known, cloud: data.cloud };
        break;
      case 'ranked':
        known = { ...known, ranked: data.runs };
        break;
      case 'weighted':
        refining = false;
        known = { ...known, weighted: { tally: data.tally, unseen: data.unseen } };
        break;
      case 'problem':
        known = { ...known, problem: data.message };
    }
    say(known);
  };
  const refine = (): void => {
    if (refiner === undefined) {
      refiner = openWorker();
      refiner.onmessage = take;
    }
    refining = true;
    refiner.postMessage({ ...question!, kind: 'refine' } satisfies Question);
  };
  counter.onmessage = take;
  counter.onerror = () => {
    known = { ...known, problem: 'This browser lets the page start no worker; open it in another.' };
    say(known);
  };

  return {
    ask: (asked) => {
      id++;
      // Its longest step cannot be stopped from within.
      if (refining) {
        refiner?.terminate();
        refiner = undefined;
        refining = false;
      }
      const { simulation } = asked.source;
      const withCloud = asked.inputs !== inputs || known.cloud === undefined;
      inputs = asked.inputs;
      known = withCloud
        ? {}
        : { ...(known.cloud && { cloud: known.cloud }), ...(known.ranked && { ranked: known.ranked }) };
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
      counter.postMessage(question);
      say({ ...told, outdated: true });
    },
  };
}

/** Chances at one top height. */
export interface Risks {
  /** Of going under the gap to be kept. */
  close: Risk;
  /** Of contact. */
  contact: Risk;
  /** Of a season in which a run goes under it. */
  season?: Risk;
}

/** Risks by height from all that is known; undefined before there are any counts. */
function knownRisks({ runs, weighted, seasons }: Known): { run: TubRisks; season?: TubRisks } | undefined {
  if (runs === undefined) return undefined;
  const { tally } = runs;
  const ofSeason = seasons && tubRisks(seasons.tally, seasons.tally, undefined)[0]!;
  return {
    run: tubRisks(tally, weighted?.unseen ?? tally, weighted?.tally)[0]!,
    ...(ofSeason && { season: ofSeason }),
  };
}

/** What the counts say of a top height; undefined before there are any. */
export function risksAt(known: Known, topHeight: number): Risks | undefined {
  const risks = knownRisks(known);
  if (risks === undefined) return undefined;
  const step = stepAt(known.runs!.tally.tubs[0]!.lowest, topHeight);
  return {
    close: risks.run.touch(step),
    contact: risks.run.contact(step),
    ...(risks.season && { season: risks.season.touch(step) }),
  };
}

/** Lowest top height at which run and season risk keep what is accepted, m; undefined when none does or not all is counted. */
export function lowestWithin(known: Known, accept: Case['accept']): number | undefined {
  const { runs, seasons } = known;
  const risks = knownRisks(known);
  if (!runs?.done || !seasons?.done || risks?.season === undefined) return undefined;
  const run = lowestAccepted(risks.run.touch, accept.runRisk);
  const season = lowestAccepted(risks.season.touch, accept.seasonRisk);
  if (run === undefined || season === undefined) return undefined;
  return runs.tally.tubs[0]!.lowest + Math.max(run, season) * SIXTEENTH;
}
