import type { Case } from '@tubgap/casefile';
import {
  type BaseSample,
  type CellFigures,
  pickSample,
  runStudy,
  type Study,
  type StudyPlan,
  type StudySetup,
  studyFigures,
} from '@tubgap/simulation';
import { openBench } from '../pool.ts';
import { performBy } from '../tasks-by-bench.ts';
import { openStudyBench } from './bench.ts';
import type { StudyRuns } from './record.ts';
import { blocksBeside, blockTimes, studySeconds } from './study-time.ts';

/** How a study is to be run. */
export interface Effort {
  /** Runs of every setup that were asked for; undefined: those of the case's pick. */
  draws: number | undefined;
  workers: number;
  /** Whether seasons are run as well. */
  seasons: boolean;
  /** Told as the work goes on: part done, 0 to 1. */
  tell: (done: number) => void;
  /** Told before the work begins: about how long it will take, s. */
  expect: (seconds: number) => void;
}

/** Figures of every setup, [tyre or, last, all tyres][tub], and the study that they come from. */
export interface Compared {
  study: Study;
  figures: CellFigures[][][];
  base: StudyBase;
}

/** Part of a study's progress that the case as it stands takes. */
export const SAMPLED = 0.2;

/** The draws of a study, and what its base asks for. */
export type StudyBase = BaseSample & Pick<StudyRuns, 'asked'>;

/**
 * Simulates the case as it stands by itself: as its pick does, or with the runs that were asked for.
 * @param whole  with all of its tubs, whichever are shown: the draws depend on them
 */
export async function sampleBase(
  whole: Case,
  { draws, workers, tell }: Pick<Effort, 'draws' | 'workers' | 'tell'>,
): Promise<StudyBase> {
  const asked = draws !== undefined;
  const source = asked ? { ...whole, simulation: { ...whole.simulation, draws } } : whole;
  const bench = openBench(source, workers);
  try {
    return { ...(await pickSample(source, performBy(bench), asked, tell)), asked };
  } finally {
    await bench.close();
  }
}

/** Heights of each tub of a base, m, at which setups are compared: its own top height, and those asked for. */
export function comparedHeights(
  { heights }: StudyBase,
  whole: Case,
  { tubs }: Case,
  asked: readonly number[],
): number[][] {
  return tubs.map(({ name }) => {
    const own = heights[whole.tubs.findIndex((tub) => tub.name === name)];
    return [...new Set([...(own === undefined ? [] : [own]), ...asked])].toSorted((a, b) => a - b);
  });
}

/** What is looked at beside the runs of every setup of a study that is written. @param seasons  whether they are run */
export const looksOf = (
  { simulation, accept }: Case,
  seasons: boolean,
): Pick<StudyPlan, 'seasons' | 'gaps'> => ({
  seasons: seasons ? { cars: simulation.cars, accepted: accept.seasonRisk } : undefined,
  gaps: true,
});

/**
 * Compares setups with the first of them, in the same draws: at the top height that the first asks for in each tub, and
 * at further heights.
 * @param whole  the case as it stands, with all of its tubs
 * @param asked  further heights, m
 * @throws ModelRangeError, RangeError that name the setup which the model does not know
 */
export async function compareSetups(
  whole: Case,
  setups: readonly StudySetup[],
  asked: readonly number[],
  effort: Effort,
): Promise<Compared> {
  const { workers, seasons, tell, expect } = effort;
  const base = await sampleBase(whole, { ...effort, tell: (done) => tell(SAMPLED * done) });
  const { source } = setups[0]!;
  const { runRisk } = source.accept;
  const heights = comparedHeights(base, whole, source, asked);
  const bench = openStudyBench(setups, workers, base);
  const { study, perform } = bench;
  try {
    const plan = { ...base, ...looksOf(source, seasons) };
    const beside = blocksBeside(source, seasons);
    expect(studySeconds(blockTimes(study, base.centres), base, setups.length, beside) / workers);
    const figures: CellFigures[][][] = [];
    await runStudy(
      study,
      { ...plan, heights },
      perform,
      (totals, point) => {
        figures.push(studyFigures(study.points[point]!, totals, runRisk, heights, figures[0]));
      },
      (done) => tell(SAMPLED + ((1 - SAMPLED) * done) / setups.length),
    );
    return { study, figures, base };
  } finally {
    await bench.close();
  }
}

/** Top height of the whole car in each tub, m: by its seasons too, where they were run. */
export const wholeHeights = (figures: readonly (readonly CellFigures[])[]): (number | undefined)[] =>
  figures.at(-1)!.map(({ topHeight, season }) => (season === undefined ? topHeight : season.topHeight));

/** The same case with its tubs and tyres known by these names only. */
export const withTubs = (source: Case, names: readonly string[]): Case => ({
  ...source,
  tubs: source.tubs.filter(({ name }) => names.includes(name)),
});
