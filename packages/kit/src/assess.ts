import type { Case } from '@tubgap/casefile';
import { type Assessment, assessCase, type JudgedTub, judgeTub, type Risk } from '@tubgap/simulation';
import { indexOf } from './named.ts';

/**
 * Everything that `tubgap pick` finds out of a case, in this thread: risks by height, picks, gaps, what would change them.
 * The same case gives the same figures as the command, to the last bit.
 * @throws ModelRangeError when a draw leaves what the model knows
 */
export const assess = (source: Case): Promise<Assessment> => assessCase(source);

/** Risk of a run at one height of one tub with one tyre. */
export interface HeightRisk {
  tyre: string;
  tub: string;
  /** Inside top above the track, m. */
  topHeight: number;
  /** That a run comes closer than the gap to be kept, with its 95 % interval. */
  risk: Risk;
}

/** The table of risk of an assessment, a row a tyre, tub and height; `any` is the whole car. */
export function riskRows(
  source: Case,
  { heights, risks }: Pick<Assessment, 'heights' | 'risks'>,
): HeightRisk[] {
  const tyres = [...source.tyres.map(({ name }) => name), 'any'];
  return tyres.flatMap((tyre, i) =>
    source.tubs.flatMap(({ name: tub }, t) =>
      heights[t]!.map((topHeight, h) => ({ tyre, tub, topHeight, risk: risks[i]![t]![h]! })),
    ),
  );
}

/**
 * Judges one tub at a height, as `tubgap judge` does; undefined where no height was given and the case has no pick.
 * @param topHeight  m; left out: as the tub is set out
 * @throws RangeError when the case has no such tub
 */
export const judge = (
  source: Case,
  { tub, topHeight }: { tub?: string; topHeight?: number } = {},
): Promise<JudgedTub | undefined> =>
  judgeTub(source, { tub: tub === undefined ? undefined : indexOf(source.tubs, tub, 'tub'), topHeight });
