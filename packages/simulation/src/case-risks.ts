import type { Case } from '@tubgap/casefile';
import type { WeightedTallies } from './importance/weighted-risk.ts';
import type { WeightedTally } from './importance/weighted-tally.ts';
import { type Risk, type RiskByHeight, riskByHeight, type SeenSteps } from './risk.ts';
import type { RunTallies } from './run-tallies.ts';
import type { CaseSetup } from './setup.ts';
import type { Tally, TubTally } from './tally.ts';

/** Risk by height of one tyre in one tub: of going under the reserve, and of real contact. */
export interface TubRisks {
  touch: RiskByHeight;
  contact: RiskByHeight;
}

/** What risk asks of a tally: plain events by steps, in each tub. */
export interface CountedSteps {
  events: number;
  tubs: readonly Pick<TubTally, 'steps' | 'contactSteps'>[];
}

/** What risk asks of a weighted tally. */
export interface WeighedSteps {
  events: number;
  tubs: readonly { steps: SeenSteps; contact: SeenSteps }[];
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

/**
 * Risks by height of one tyre, or of all, in every tub.
 * @param unseen  of the same events those where the mixture of the weighted ones does not lead to
 */
export function tubRisks(
  tally: CountedSteps,
  unseen: CountedSteps,
  weighted: WeighedSteps | undefined,
): TubRisks[] {
  const { events } = tally;
  return tally.tubs.map((tub, t) => {
    const rest = unseen.tubs[t]!;
    const sums = weighted?.tubs[t];
    const beside = (steps: SeenSteps | undefined) => weighted && steps && { events: weighted.events, steps };
    return {
      touch: riskByHeight({ events, all: tub.steps, unseen: rest.steps }, beside(sums?.steps)),
      contact: riskByHeight(
        { events, all: tub.contactSteps, unseen: rest.contactSteps },
        beside(sums?.contact),
      ),
    };
  });
}

/** Risk of a season by height, a tub, of `tubRisks` of its cars. */
export const seasonRisks = (...tallies: Parameters<typeof tubRisks>): RiskByHeight[] =>
  tubRisks(...tallies).map(({ touch }) => touch);

/**
 * Risks by height from plain and weighted tallies.
 * @param unseenSeasons  of the plain seasons those of cars where the mixture of the weighted ones does not lead to
 */
export function caseRisks(
  runs: RunTallies,
  tail: WeightedTallies | undefined,
  seasons: Tally,
  mixtureSeasons: WeightedTally | undefined,
  unseenSeasons: Tally = seasons,
): CaseRisks {
  return {
    tyres: runs.tyres.map((tally, i) => tubRisks(tally, runs.unseen.tyres[i]!, tail?.tyres[i])),
    all: tubRisks(runs.all, runs.unseen.all, tail?.all),
    seasons: seasonRisks(seasons, unseenSeasons, mixtureSeasons),
  };
}

/**
 * Whether the accepted risk of a season may be what decides: not where the accepted run risks of a season, added up, are
 * within it, for the chance of any of several events is at most the sum of theirs.
 */
export function seasonsMatter(source: Case): boolean {
  const { accept, tyres } = source;
  const runs = tyres.reduce(
    (sum, { own, runsPerSeason }) => (own?.runRisk === undefined ? sum + runsPerSeason : sum),
    0,
  );
  const others = tyres.reduce((sum, { own, runsPerSeason }) => sum + runsPerSeason * (own?.runRisk ?? 0), 0);
  return runs * accept.runRisk + others > accept.seasonRisk;
}

/**
 * What the runs' risks say of a season, a tub: it is touched no more often than all of its runs together, and no less often
 * than one of them. True of any cars, alike or not.
 * @param tyres  [tyre][tub]
 */
export function seasonsByRuns(setup: CaseSetup, tyres: readonly (readonly TubRisks[])[]): RiskByHeight[] {
  return setup.lowestHeights.map((_, t) => (step) => {
    const risks = tyres.map((tubs) => tubs[t]!.touch(step));
    const together = (end: 'estimate' | 'high'): number =>
      Math.min(
        1,
        risks.reduce((sum, risk, i) => sum + setup.tyres[i]!.runsPerSeason * risk[end], 0),
      );
    const of = (end: 'touches' | 'events'): number => risks.reduce((sum, risk) => sum + risk[end], 0);
    return {
      touches: of('touches'),
      events: of('events'),
      estimate: together('estimate'),
      low: Math.max(...risks.map(({ low }) => low)),
      high: together('high'),
      method: 'counted',
      cov: null,
      effectiveDraws: 0,
    } satisfies Risk;
  });
}
