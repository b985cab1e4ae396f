import { type Case, numbersIn } from '@tubgap/casefile';
import { BLOCK, drawsToSupport } from '@tubgap/statistics';
import { type CaseRisks, caseRisks, seasonsByRuns } from './case-risks.ts';
import { NO_CENTRES } from './importance/mixture.ts';
import type { RunTallies } from './run-tallies.ts';
import { caseSetup } from './setup.ts';
import type { Perform } from './simulate.ts';
import { floorTasks, gather, roundTasks, seasonTasks } from './tasks.ts';

/** Runs and cars of a first look at most: rarer risks wait for weighted ones. */
const MOST_RUNS = 32 * BLOCK;
const MOST_CARS = 256;
/** Times as many as a risk without a touch asks for, so that the one or two highest of them do not set the height. */
const MORE_RUNS = 1.6;
const MORE_CARS = 1.3;

/** How many times as many runs as the run risk asks for are made so that seasons need not be simulated: these take more. */
const INSTEAD_OF_SEASONS = 2;

/** Risk of a run with which all runs of a season together are within what is accepted of it. */
const seasonsShare = ({ accept, tyres }: Case): number =>
  accept.seasonRisk / tyres.reduce((sum, tyre) => sum + tyre.runsPerSeason, 0);

/** Least run risk that is accepted in any class. */
const rarestRun = (source: Case): number =>
  Math.min(...source.tyres.map((tyre) => numbersIn(source, tyre).runRisk));

/** Whether the runs tell enough of a season. */
const runsTellSeasons = (source: Case): boolean =>
  seasonsShare(source) >= rarestRun(source) / INSTEAD_OF_SEASONS;

/** A case with hardly more runs and cars than its accepted risks ask for. */
export const lookedAtFirst = (source: Case): Case => {
  const { accept, simulation } = source;
  const rarest = runsTellSeasons(source)
    ? Math.min(rarestRun(source), seasonsShare(source))
    : rarestRun(source);
  const runs = Math.min(MOST_RUNS, MORE_RUNS * drawsToSupport(rarest));
  return {
    ...source,
    simulation: {
      ...simulation,
      draws: Math.min(simulation.draws, Math.ceil(runs / BLOCK) * BLOCK),
      cars: Math.min(simulation.cars, MOST_CARS, Math.ceil(MORE_CARS * drawsToSupport(accept.seasonRisk))),
    },
  };
};

/** Plain counts of a case, and the risks that they allow to be told. */
export interface FirstLook {
  runs: RunTallies;
  risks: CaseRisks;
  /** Seasons that were counted; 0: how often one is touched follows from its runs. */
  seasons: number;
}

/**
 * The first plain runs and seasons of a case, counted alone: a first answer, of which all that is open shows in wide
 * intervals. The pick of the same case begins with the same draws. Where hardly more runs tell that a season is within what
 * is accepted too, none is counted: that bound is wider than a count's.
 * @param source  by `lookedAtFirst`
 * @throws ModelRangeError when a draw leaves what the model knows
 */
export async function firstLook(source: Case, perform: Perform): Promise<FirstLook> {
  const setup = caseSetup(source);
  const results = await perform(floorTasks(), () => {});
  const from = { centres: NO_CENTRES, floors: gather(setup, results).floors };
  const follows = runsTellSeasons(source);
  const tasks = [...roundTasks(source, from, 0, 1), ...(follows ? [] : seasonTasks(source, from))];
  results.push(...(await perform(tasks, () => {})));
  const { runs, seasons } = gather(setup, results);
  const risks = caseRisks(runs, undefined, seasons, undefined);
  return {
    runs,
    risks: follows ? { ...risks, seasons: seasonsByRuns(setup, risks.tyres) } : risks,
    seasons: seasons.events,
  };
}
