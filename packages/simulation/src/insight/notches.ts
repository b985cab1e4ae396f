import { type Case, type CaseTub, numbersIn } from '@tubgap/casefile';
import { BLOCK } from '@tubgap/statistics';
import { SIXTEENTH } from '@tubgap/units';
import type { Risk } from '../risk.ts';
import { type CellFigures, studyFigures } from '../study/study-figures.ts';
import { openStudy, type PerformStudy, runStudy, type StudySample } from '../study/study-tasks.ts';

/** What one notch of a tub costs, and how deep it could be. */
export interface NotchCost {
  /** rad from the tub's top, forward positive; m. */
  angle: number;
  depth: number;
  /** Deepest flat at this angle that keeps the accepted run risk at the pick's height, m, rounded down to 1/16 in. */
  deepest: number;
  /** Top height that this notch costs, m: against the same tub without it. */
  height: number;
}

/** Blocks that depths are compared in, plain and weighted: told from each other to a small part of 1/16 in. */
const BLOCKS = 16;
/** Deepest flat that is looked at, and the steps by which its depth is narrowed down, in sixteenths of an inch. */
const DEEPEST = 6 * 16;
const COARSE = 12;

/** The pick at which notches are looked at. */
export interface NotchPlace {
  tub: number;
  /** m */
  topHeight: number;
  /** Run risk there of each tyre, the pick's own. */
  risks: readonly Risk[];
}

/** Largest of some rising depths that keeps the risk, and all before it as well; the first where none does. */
const deepestOf = (depths: readonly number[], keeps: (index: number) => boolean): number => {
  const fails = depths.findIndex((_, k) => !keeps(k));
  return depths[Math.max(0, (fails < 0 ? depths.length : fails) - 1)]!;
};

/**
 * Costs of the notches of one tub at its pick, with the same draws for every depth: first all depths coarsely, then those
 * between the deepest that keeps the pick and the next.
 * A depth keeps it where the bound that the pick stands on, moved by what the depth adds to the risk, stays accepted: so
 * the notch as it is always does.
 * @param performWith  makes the tasks of a study of the case in such tubs
 */
export async function notchCosts(
  source: Case,
  { tub, topHeight, risks }: NotchPlace,
  sample: StudySample,
  performWith: (tubs: readonly CaseTub[]) => PerformStudy,
): Promise<NotchCost[]> {
  const own = source.tubs[tub]!;
  const plan = {
    draws: Math.min(sample.draws, BLOCKS * BLOCK),
    weightedBlocks: Math.min(sample.weightedBlocks, BLOCKS),
    centres: sample.centres,
  };
  const withDepth = (index: number, depth: number | undefined): CaseTub => ({
    ...own,
    notches: own.notches.flatMap((notch, i) => {
      if (i !== index) return [notch];
      return depth === undefined ? [] : [{ ...notch, depth }];
    }),
  });
  /** Figures of the tub with its notch in several depths, the first its own: a tub [tyre or, last, all tyres]. */
  const looked = async (index: number, depths: readonly (number | undefined)[]): Promise<CellFigures[][]> => {
    const tubs = [own, ...depths.map((depth) => withDepth(index, depth))];
    const heights = tubs.map(() => [topHeight]);
    const study = openStudy([{ label: source.name, source: { ...source, tubs } }]);
    let rows: CellFigures[][] = [];
    await runStudy(study, { ...plan, heights }, performWith(tubs), (totals) => {
      rows = studyFigures(study.points[0]!, totals, source.accept.runRisk, heights);
    });
    return tubs.map((_, t) => rows.map((cells) => cells[t]!));
  };
  const costs: NotchCost[] = [];
  for (const [index, { angle, depth }] of own.notches.entries()) {
    const narrowed = async (from: number, to: number, step: number): Promise<[number, CellFigures[][]]> => {
      const count = Math.floor((to - from) / step) + 1;
      const depths = Array.from({ length: count }, (_, k) => (from + k * step) * SIXTEENTH);
      const [as, without, ...cut] = await looked(index, [undefined, ...depths]);
      const keeps = (k: number): boolean =>
        risks.every(({ high }, i) => {
          const riskOf = (cells: CellFigures[]): number => cells[i]!.compared[0]!.risk.estimate;
          const most = numbersIn(source, source.tyres[i]!).runRisk;
          return high + riskOf(cut[k]!) - riskOf(as!) <= most;
        });
      return [deepestOf(depths, keeps), [as!, without!]];
    };
    const [coarse] = await narrowed(0, DEEPEST, COARSE);
    const from = Math.round(coarse / SIXTEENTH);
    const [deepest, [as, without]] = await narrowed(from, Math.min(DEEPEST, from + COARSE), 1);
    const evenOf = (cells: CellFigures[] | undefined): number => cells?.at(-1)?.even?.height ?? Number.NaN;
    const height = evenOf(as) - evenOf(without);
    costs.push({
      angle,
      depth,
      deepest: Math.max(deepest, Math.floor(depth / SIXTEENTH + 1e-9) * SIXTEENTH),
      height: Number.isNaN(height) ? 0 : height,
    });
  }
  return costs;
}
