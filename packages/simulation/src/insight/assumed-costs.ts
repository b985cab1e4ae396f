import { type Case, everyInput, withInputs } from '@tubgap/casefile';
import { BLOCK, quantile } from '@tubgap/statistics';
import type { Centres } from '../importance/mixture.ts';
import { type CellFigures, studyFigures } from '../study/study-figures.ts';
import type { StudySetup } from '../study/study-point.ts';
import {
  openStudy,
  performStudyTask,
  runStudy,
  type StudyTask,
  type StudyTaskResult,
} from '../study/study-tasks.ts';

/** Something that is assumed of a car and that one answer would tell. */
export interface AssumedItem {
  name: string;
  /** Places in the file of the inputs that it holds: 'suspension.wheelRate'. */
  inputs: readonly string[];
}

/**
 * What it costs that something is assumed: how the top height at the accepted run risk would change if it were known, m;
 * null where no height is found then.
 */
export interface AssumedCost {
  name: string;
  /** Known to lie where 1 in 20 lie below, in its middle, and where 1 in 20 lie above. */
  low: number | null;
  middle: number | null;
  high: number | null;
  /** How far an answer would move the height, on the average of the three, m; an answer without a height counts most. */
  moves: number;
}

/**
 * Three places that stand for a law, by the chance of what lies below, and the weight of each: means of smooth functions
 * come out within a few per cent. Source: D. L. Keefer and S. E. Bodily (1983), Management Science 29, 595–609 (from memory).
 */
const PLACES = [
  { end: 'low', below: 0.05, weight: 0.185 },
  { end: 'middle', below: 0.5, weight: 0.63 },
  { end: 'high', below: 0.95, weight: 0.185 },
] as const;

/** Height that an answer without one counts as having moved, m. */
const NO_HEIGHT = 0.05;
/** Items of one study: with the base as many setups as one task takes. */
const ITEMS_A_STUDY = 3;
const PLAIN_RUNS = 4 * BLOCK;
const WEIGHTED_BLOCKS = 8;

/**
 * A case with some inputs known: each at the place of its law below which a share of it lies, all at the same.
 * @param paths  of inputs; what the case does not have is passed over
 */
export const withKnown = (source: Case, paths: readonly string[], below: number): Case =>
  withInputs(source, (input) => {
    if (!paths.includes(input.path)) return input;
    const { follows: _, ...rest } = input;
    const value = Math.max(input.floor ?? Number.NEGATIVE_INFINITY, quantile(input.law, below));
    return { ...rest, law: { kind: 'constant', value } };
  });

/** Where the assumed stands: a tub, its pick, and the centres of the case's touches. */
export interface AssumedPlace {
  tub: number;
  /** m */
  topHeight: number;
  centres: Centres;
}

/** Works out tasks of a study here, and may stop between two of them by throwing. */
type Work = (perform: () => StudyTaskResult) => Promise<StudyTaskResult>;

/**
 * What every assumed item of a case costs in one tub, by variants of the case on common draws: each item known at three
 * places of its law, all else as uncertain as it is. Heights are those of a sweep of the same, without steps. An item
 * without an input that is uncertain in the case is left out.
 * @param work  makes each part of the work
 * @param tell  told each cost as it is known
 */
export async function assumedCosts(
  source: Case,
  items: readonly AssumedItem[],
  { tub, topHeight, centres }: AssumedPlace,
  work: Work,
  tell: (cost: AssumedCost) => void,
): Promise<void> {
  const only: Case = { ...source, tubs: [source.tubs[tub]!] };
  const uncertain = new Set(
    everyInput(only).flatMap(({ law, path }) => (law.kind === 'constant' ? [] : [path])),
  );
  const open = items.filter(({ inputs }) => inputs.some((path) => uncertain.has(path)));
  for (let first = 0; first < open.length; first += ITEMS_A_STUDY) {
    const some = open.slice(first, first + ITEMS_A_STUDY);
    const figures = await figuresOf(only, some, topHeight, centres, work);
    const heightOf = (row: number): number | undefined => figures[row]!.at(-1)![0]!.even?.height;
    const before = heightOf(0);
    if (before === undefined) return;
    some.forEach(({ name }, i) => {
      const moved = PLACES.map((_, k) => {
        const after = heightOf(1 + i * PLACES.length + k);
        return after === undefined ? null : after - before;
      });
      const moves = PLACES.reduce((sum, { weight }, k) => sum + weight * Math.abs(moved[k] ?? NO_HEIGHT), 0);
      tell({ name, low: moved[0]!, middle: moved[1]!, high: moved[2]!, moves });
    });
  }
}

/** Figures of a case and of each of its items at each place, in that order. */
async function figuresOf(
  only: Case,
  items: readonly AssumedItem[],
  topHeight: number,
  centres: Centres,
  work: Work,
): Promise<CellFigures[][][]> {
  const setups: StudySetup[] = [
    { label: only.name, source: only },
    ...items.flatMap(({ name, inputs }) =>
      PLACES.map(({ end, below }) => ({ label: `${name}, ${end}`, source: withKnown(only, inputs, below) })),
    ),
  ];
  const study = openStudy(setups);
  const heights = [[topHeight]];
  const figures: CellFigures[][][] = [];
  const perform = async (tasks: readonly StudyTask[]): Promise<StudyTaskResult[]> => {
    const results: StudyTaskResult[] = [];
    for (const task of tasks) results.push(await work(() => performStudyTask(study, task)));
    return results;
  };
  const sample = { draws: PLAIN_RUNS, weightedBlocks: WEIGHTED_BLOCKS, centres, heights };
  await runStudy(study, sample, perform, (totals, p) => {
    figures.push(studyFigures(study.points[p]!, totals, only.accept.runRisk, heights, figures[0]));
  });
  return figures;
}
