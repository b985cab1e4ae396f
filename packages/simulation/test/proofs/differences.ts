import type { Case } from '@tubgap/casefile';
import { INCH, PSI } from '@tubgap/units';
import type { Centres } from '../../src/importance/mixture.ts';
import { type CellFigures, studyFigures } from '../../src/study/study-figures.ts';
import type { StudySetup } from '../../src/study/study-point.ts';
import { openStudy, performStudyTask, runStudy } from '../../src/study/study-tasks.ts';
import { movedLaw } from '@tubgap/statistics';

/** The case as it stands, and the two changes whose differences are held against known ones. */
export const CHANGES = ['tub 3/4 in further ahead', '1 psi more'] as const;

function setupsOf(source: Case): StudySetup[] {
  const ahead = source.tubs.map((tub) => ({ ...tub, centreForward: tub.centreForward + 0.75 * INCH }));
  const harder = source.tyres.map((tyre) => {
    const { coldPressure } = tyre.inputs;
    const law = movedLaw(coldPressure.law, 1, PSI, coldPressure.floor);
    return { ...tyre, inputs: { ...tyre.inputs, coldPressure: { ...coldPressure, law } } };
  });
  return [
    { label: source.name, source },
    { label: CHANGES[0], source: { ...source, tubs: ahead } },
    { label: CHANGES[1], source: { ...source, tyres: harder } },
  ];
}

/** What is told of a setup, and its plain runs by how many heights they touch at. */
export interface ChangedFigures {
  cell: CellFigures;
  lowest: number;
  steps: Float64Array;
}

/** Figures of the case's one tyre in its one tub with each change, by the product's study. */
export async function changedFigures(
  source: Case,
  sample: { draws: number; weightedBlocks: number; centres: Centres },
  topHeight: number,
): Promise<ChangedFigures[]> {
  const study = openStudy(setupsOf(source));
  const heights = [[topHeight]];
  const figures: CellFigures[][][] = [];
  const found: ChangedFigures[] = [];
  const perform = async (tasks: Parameters<Parameters<typeof runStudy>[2]>[0]) =>
    tasks.map((task) => performStudyTask(study, task));
  await runStudy(study, { ...sample, heights }, perform, (totals, p) => {
    figures.push(studyFigures(study.points[p]!, totals, source.accept.runRisk, heights, figures[0]));
    const { lowest, steps } = totals.plain.tallies.tyres[0]!.tubs[0]!;
    found.push({ cell: figures[p]![0]![0]!, lowest, steps });
  });
  return found;
}
