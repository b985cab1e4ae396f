import type { Case } from '@tubgap/casefile';
import type { AsBuilt, ShortAssessment } from '@tubgap/evidence';
import { type Pick, type Risk, stepAt, type Verdict } from '@tubgap/simulation';
import { elsewhere } from './elsewhere.ts';

/** Risks of one tub at one height. */
interface RisksThere {
  /** [tyre] */
  touch: Risk[];
  contact: Risk[];
  season: Risk;
}

/** Picks of a case, and its risks at the heights that were picked before anything was learned. */
export interface AssessedCase {
  picks: Pick[];
  chosen: number | undefined;
  /** Of every tub at its height of before; null for a tub that had none. */
  risks: (RisksThere | null)[];
}

/** The same with the verdict on the tub that stands in the car; undefined where none was asked about. */
export interface JudgedCase extends AssessedCase {
  standing: Verdict | undefined;
}

/** Heights of the tubs as they are picked, m. */
export const pickedHeights = (picks: readonly Pick[]): (number | undefined)[] =>
  picks.map(({ height }) => height?.topHeight);

/** @param heights  of every tub, m, at which its risks are told; its own pick's when left out */
export function risksAtHeights(
  { risks, picks, chosen, setup }: ShortAssessment,
  heights: readonly (number | undefined)[] = pickedHeights(picks),
): AssessedCase {
  const there = (height: number | undefined, tub: number): RisksThere | null => {
    if (height === undefined) return null;
    const step = stepAt(setup.lowestHeights[tub]!, height);
    return {
      touch: risks.tyres.map((tubs) => tubs[tub]!.touch(step)),
      contact: risks.tyres.map((tubs) => tubs[tub]!.contact(step)),
      season: risks.seasons[tub]!(step),
    };
  };
  return { picks, chosen, risks: heights.map(there) };
}

/** What is assessed. */
export interface AssessAsked {
  source: Case;
  /** The tub in the car, to be judged with it. */
  built: AsBuilt | undefined;
  /** See `risksAtHeights`. */
  heights?: readonly (number | undefined)[];
}

/** Assesses a case in a thread of its own. */
export const assessElsewhere = (asked: AssessAsked): Promise<JudgedCase> =>
  elsewhere(new URL('./assess-worker.js', import.meta.url), asked);
