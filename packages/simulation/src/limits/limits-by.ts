import type { Case } from '@tubgap/casefile';
import type { Progress } from '../assess/assess.ts';
import { type AskedTub, type Judgement, judgement } from '../judge-tub.ts';
import { weightedBlocks } from '../runner.ts';
import type { Perform } from '../simulate.ts';
import type { Standing } from '../verdict.ts';
import { findLimits, type LimitSample } from './find-limits.ts';
import type { Limit } from './limit.ts';
import type { Limited } from './quantities.ts';

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
 * @throws as `judgement`
 */
export async function limitsBy(
  { source, tub, topHeight }: AskedTub & { source: Case },
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
