import { type RiskByHeight, riskByHeight } from './risk.ts';
import type { RunTallies } from './run-risk.ts';
import type { TailTallies } from './tail/tail-risk.ts';
import type { WeightedTally } from './tail/weighted-tally.ts';
import type { Tally } from './tally.ts';

/** Risk by height of one tyre in one tub: of going under the reserve, and of real contact. */
export interface TubRisks {
  touch: RiskByHeight;
  contact: RiskByHeight;
}

/** Risks by height of a case. */
export interface CaseRisks {
  /** [tyre][tub] */
  tyres: TubRisks[][];
  /** All tyres together, a tub. */
  all: TubRisks[];
  /** A season, a tub. */
  seasons: RiskByHeight[];
}

function tubRisks(tally: Tally, weighted: WeightedTally | undefined): TubRisks[] {
  return tally.tubs.map((tub, t) => {
    const sums = weighted?.tubs[t];
    const events = weighted?.events ?? 0;
    return {
      touch: riskByHeight(tub.steps, tally.events, sums?.steps, events),
      contact: riskByHeight(tub.contactSteps, tally.events, sums?.contact, events),
    };
  });
}

/** Risks by height from plain and weighted tallies. */
export function caseRisks(
  runs: RunTallies,
  tail: TailTallies | undefined,
  seasons: Tally,
  tailSeasons: WeightedTally | undefined,
): CaseRisks {
  return {
    tyres: runs.tyres.map((tally, i) => tubRisks(tally, tail?.tyres[i])),
    all: tubRisks(runs.all, tail?.all),
    seasons: tubRisks(seasons, tailSeasons).map((risks) => risks.touch),
  };
}
