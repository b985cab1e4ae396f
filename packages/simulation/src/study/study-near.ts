import { INCH, SIXTEENTH } from '@tubgap/units';
import { type CellFigures, studyFigures } from './study-figures.ts';
import { type PerformStudy, runStudy, type Study, type StudyPlan, type StudySample } from './study-tasks.ts';

/** Setups ask for so much less at most, as a rule, m: one that asks for less is worked out once more from lower heights. */
const GIVES = 0.75 * INCH;
const QUARTER = 0.25 * INCH;

/**
 * Figures of setups in one tub, `[setup][tyre, all of them last][tub]`, compared at one height near which all of them, as a rule,
 * need theirs: draws that need less are soon done with. What they say of heights is what it is without that, to the last bit.
 * @param topHeight  m
 * @param accepted  run risk
 */
export async function figuresNear(
  study: Study,
  sample: StudySample,
  topHeight: number,
  accepted: number,
  perform: PerformStudy,
): Promise<CellFigures[][][]> {
  const heights = [[topHeight]];
  const figures: CellFigures[][][] = [];
  const run = (plan: Omit<StudyPlan, keyof StudySample | 'heights'>): Promise<void> =>
    runStudy(study, { ...sample, heights, ...plan }, perform, (totals, p) => {
      figures[p] = studyFigures(study.points[p]!, totals, accepted, heights, figures[0]);
    });
  const floor = Math.floor((topHeight - GIVES) / QUARTER + 1e-9) * QUARTER;
  await run({ floor });
  // What lies at the floor may lie below it: that is told from lower on.
  const isOpen = (p: number): boolean => {
    const { even, topHeight: needed } = figures[p]!.at(-1)![0]!;
    return [even?.height, needed].some((height) => height !== undefined && height < floor + 2 * SIXTEENTH);
  };
  if (isOpen(0)) await run({});
  else for (let p = 1; p < figures.length; p++) if (isOpen(p)) await run({ firstPoint: p, endPoint: p + 1 });
  return figures;
}
