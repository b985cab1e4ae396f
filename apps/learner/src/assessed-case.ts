import type { Case } from '@tubgap/casefile';
import type { AsBuilt, ShortAssessment } from '@tubgap/evidence';
import type { Pick, Risk, Verdict } from '@tubgap/simulation';
import { SIXTEENTH } from '@tubgap/units';
import { elsewhere } from './elsewhere.ts';

/** Risks of one tub by height, from `lowest` in sixteenths of an inch. */
interface TubTable {
  lowest: number;
  /** [tyre][step] */
  touch: Risk[][];
  contact: Risk[][];
  season: Risk[];
}

/** Picks and risks of a case, as they travel between threads. */
export interface AssessedCase {
  picks: Pick[];
  chosen: number | undefined;
  tubs: TubTable[];
}

/** The same with the verdict on the tub that stands in the car; undefined where none was asked about. */
export interface JudgedCase extends AssessedCase {
  standing: Verdict | undefined;
}

/** Steps kept: 25 in. */
const STEPS = 400;

export function riskTable({ risks, picks, chosen, setup }: ShortAssessment): AssessedCase {
  const steps = Array.from({ length: STEPS }, (_, step) => step);
  return {
    picks,
    chosen,
    tubs: setup.lowestHeights.map((lowest, t) => ({
      lowest,
      touch: risks.tyres.map((tubs) => steps.map(tubs[t]!.touch)),
      contact: risks.tyres.map((tubs) => steps.map(tubs[t]!.contact)),
      season: steps.map(risks.seasons[t]!),
    })),
  };
}

/** The table's step for a height; a height between two counts as the lower one. */
export const stepOf = ({ lowest }: TubTable, height: number): number =>
  Math.max(0, Math.min(STEPS - 1, Math.floor((height - lowest) / SIXTEENTH + 1e-6)));

/** Assesses a case in a thread of its own. @param built  the tub in the car, to be judged with it */
export const assessElsewhere = (source: Case, built?: AsBuilt): Promise<JudgedCase> =>
  elsewhere(new URL('./assess-worker.js', import.meta.url), { source, built });
