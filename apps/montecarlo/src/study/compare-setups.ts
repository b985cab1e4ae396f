import type { Case } from '@tubgap/casefile';
import {
  blocksOf,
  type CellFigures,
  type PerformStudy,
  runStudy,
  type Study,
  type StudySetup,
  type StudyTask,
  studyCentres,
  studyFigures,
} from '@tubgap/simulation';
import { openStudyBench } from './bench.ts';
import { blockTimes, studySeconds } from './study-time.ts';

/** How a study is to be run. */
export interface Effort {
  draws: number;
  workers: number;
  /** Told as the work goes on: part done, 0 to 1. */
  tell: (done: number) => void;
  /** Told before the work begins: about how long it will take, s. */
  expect: (seconds: number) => void;
}

/** Figures of every setup, [tyre or, last, all tyres][tub], and the study that they come from. */
export interface Compared {
  study: Study;
  figures: CellFigures[][][];
}

/** How the heights are found at which setups are compared. */
export interface HeightSearch {
  blocks: number;
  centres: StudyTask['centres'];
  /** Run risk that the shop accepts. */
  runRisk: number;
  /** Further heights, m. */
  asked: readonly number[];
}

/** Heights of each tub, m, at which setups are compared: the top height of the first, and those asked for. */
export async function comparedHeights(
  { points, seed }: Study,
  { blocks, centres, runRisk, asked }: HeightSearch,
  perform: PerformStudy,
): Promise<number[][]> {
  const base = points[0]!;
  const nowhere = base.setup.clearance.tubs.map(() => []);
  let figures: CellFigures[][] = [];
  await runStudy({ points: [base], seed }, { blocks, centres, heights: nowhere }, perform, (totals) => {
    figures = studyFigures(base, totals, runRisk, nowhere);
  });
  return wholeHeights(figures).map((height) =>
    [...new Set([...(height === undefined ? [] : [height]), ...asked])].toSorted((a, b) => a - b),
  );
}

/**
 * Compares setups with the first of them, in the same draws: at the top height that the first asks for in each tub, and
 * at further heights.
 * @param asked  further heights, m
 * @throws ModelRangeError, RangeError that name the setup which the model does not know
 */
export async function compareSetups(
  setups: readonly StudySetup[],
  asked: readonly number[],
  { draws, workers, tell, expect }: Effort,
): Promise<Compared> {
  const blocks = blocksOf(draws);
  const bench = openStudyBench(setups, workers, 2 * draws);
  const { study, perform } = bench;
  const { runRisk } = setups[0]!.source.accept;
  try {
    const centres = studyCentres(study);
    // The base is run once more by itself, to find the heights at which all are compared.
    expect(studySeconds(blockTimes(study, centres), draws, setups.length + 1) / workers);
    const heights = await comparedHeights(study, { blocks, centres, runRisk, asked }, perform);
    const figures: CellFigures[][][] = [];
    await runStudy(
      study,
      { blocks, centres, heights },
      perform,
      (totals, point) => {
        figures.push(studyFigures(study.points[point]!, totals, runRisk, heights, figures[0]));
      },
      (done) => tell(done / setups.length),
    );
    return { study, figures };
  } finally {
    await bench.close();
  }
}

/** Top height of the whole car in each tub, m. */
export const wholeHeights = (figures: readonly (readonly CellFigures[])[]): (number | undefined)[] =>
  figures.at(-1)!.map(({ topHeight }) => topHeight);

/** The same case with its tubs and tyres known by these names only. */
export const withTubs = (source: Case, names: readonly string[]): Case => ({
  ...source,
  tubs: source.tubs.filter(({ name }) => names.includes(name)),
});
