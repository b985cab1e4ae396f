import type { Case } from '@tubgap/casefile';
import {
  findLimits,
  type Judgement,
  judgement,
  type Limit,
  type Limited,
  type LimitSample,
  type Perform,
  type Progress,
  type Standing,
  weightedBlocks,
} from '@tubgap/simulation';
import type { StandingTub } from './standing-tub.ts';

/** The verdict on a tub, and how far each number may go for it. */
export interface JudgedLimits {
  judged: Judgement;
  limits: Limit[];
}

/** The draws that a tub was judged by, and what it lacks by them. */
export const sampleOf = (source: Case, { draws, centres, stands }: Judgement): LimitSample => ({
  draws,
  weightedBlocks: weightedBlocks(source),
  centres,
  stands,
});

/**
 * Judges a tub and finds its limits with the same draws.
 * @param codesFor  what limits are asked of, by how the tub stands; all when undefined
 * @returns undefined where no tub is asked about and none is picked
 */
export async function limitsBy(
  { source, tub, topHeight }: StandingTub,
  perform: Perform,
  codesFor: (standing: Standing) => readonly Limited[] | undefined,
  tell: Progress,
): Promise<JudgedLimits | undefined> {
  const judged = await judgement(source, { tub, topHeight }, perform, tell);
  if (judged === undefined) return undefined;
  const limits = await findLimits(
    source,
    { tub: judged.tub, tyre: judged.tyre, topHeight: judged.verdict.topHeight },
    sampleOf(source, judged),
    perform,
    codesFor(judged.verdict.standing),
    (done) => tell('looking closely', done),
  );
  return { judged, limits };
}
