import { oneIn, outOf } from '@tubgap/units';
import { boundWords, type RiskReport, riskWords } from './risk.ts';

/** Risks of one tub at one height that a season's words need. */
export interface SeasonRisks {
  limitingTyre: string;
  runRisk: Pick<RiskReport, 'estimate'>;
  seasonRisk: RiskReport;
}

/** Runs of a season by tyre. */
export type SeasonRuns = readonly Readonly<{ name: string; runsPerSeason: number }>[];

/** So many runs too close, in a season that has one at all, are told as often. */
const OFTEN = 3;

/**
 * Whether it is few cars that come too close, and these often: the limiting tyre's runs alone do so several times in each
 * season that has such a run. Else seasons are alike, whatever the car.
 */
export function isOfFewCars({ limitingTyre, runRisk, seasonRisk }: SeasonRisks, tyres: SeasonRuns): boolean {
  const runs = tyres.find(({ name }) => name === limitingTyre)?.runsPerSeason ?? 0;
  return seasonRisk.estimate > 0 && runs * runRisk.estimate >= OFTEN * seasonRisk.estimate;
}

/** A share of cars as people count them: '1 car in 1,000 like this'. */
export const carsLikeThis = (share: number): string =>
  share >= 0.5 ? `${oneIn(share)} cars like this` : `1 car in ${outOf(share)} like this`;

/** A season's risk in words: 'about 1 car in 1,000 like this, and then often, surely no more often than 1 in 277'. */
export const seasonWords = (risks: SeasonRisks, tyres: SeasonRuns): string =>
  isOfFewCars(risks, tyres)
    ? `about ${carsLikeThis(risks.seasonRisk.estimate)}, and then often, ${boundWords(risks.seasonRisk.high)}`
    : riskWords(risks.seasonRisk, 'season');
