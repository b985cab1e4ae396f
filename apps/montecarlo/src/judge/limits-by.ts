import {
  findLimits,
  type JudgedTub,
  judgeTub,
  type Limit,
  type Limited,
  type Perform,
  type Progress,
  type Standing,
  weightedBlocks,
} from '@tubgap/simulation';
import type { StandingTub } from './standing-tub.ts';

/** The verdict on a tub, and how far each number may go for it. */
export interface JudgedLimits {
  judged: JudgedTub;
  limits: Limit[];
}

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
  const judged = await judgeTub(source, { tub, topHeight }, perform, tell);
  if (judged === undefined) return undefined;
  const limits = await findLimits(
    source,
    { tub: judged.tub, tyre: judged.tyre, topHeight: judged.verdict.topHeight },
    { draws: judged.draws, weightedBlocks: weightedBlocks(source), centres: judged.centres },
    perform,
    codesFor(judged.verdict.standing),
    (done) => tell('looking closely', done),
  );
  return { judged, limits };
}
