import { clopperPearson, type Interval } from '@tubgap/statistics';
import type { Forecast } from './leave-one-out.ts';

/** Forecasts of about the same chance, and how many came true. */
export interface ReliabilityBin {
  /** Chances from this one up to below that one. */
  from: number;
  to: number;
  forecasts: number;
  /** Mean of the forecasts. */
  foretold: number;
  happened: number;
  /** Holds the true share in 95 of 100 such bins; with nothing seen its upper end is the bound. */
  interval: Interval;
}

/** A Brier score and what it is made of; score = reliability − resolution + uncertainty + within. */
export interface BrierScore {
  score: number;
  /** 0 is best: chances that are what comes true. */
  reliability: number;
  /** The more the better: chances that differ from the mean and rightly so. */
  resolution: number;
  /** Of the events themselves. */
  uncertainty: number;
  /** What forecasts that differ within one bin add; 0 where they are all alike. */
  within: number;
}

/** Forecasts below this are all in one bin. */
const RAREST = 1e-4;
/** Bins a tenfold of chance. */
const A_DECADE = 2;

/** Bins even in the logarithm of the chance, those with forecasts alone. */
export function reliabilityBins(forecasts: readonly Forecast[]): ReliabilityBin[] {
  const indexOf = (chance: number): number =>
    chance < RAREST ? 0 : 1 + Math.min(7, Math.floor(A_DECADE * Math.log10(chance / RAREST)));
  const edge = (index: number): number => (index === 0 ? 0 : RAREST * 10 ** ((index - 1) / A_DECADE));
  const bins = new Map<number, Forecast[]>();
  for (const forecast of forecasts) {
    const index = indexOf(forecast.chance);
    bins.set(index, [...(bins.get(index) ?? []), forecast]);
  }
  return [...bins]
    .sort(([a], [b]) => a - b)
    .map(([index, own]) => {
      const happened = own.filter((one) => one.happened).length;
      return {
        from: edge(index),
        to: edge(index + 1),
        forecasts: own.length,
        foretold: own.reduce((sum, { chance }) => sum + chance, 0) / own.length,
        happened,
        interval: clopperPearson(happened, own.length),
      };
    });
}

/**
 * The mean square by which forecasts were off, in its parts, the forecasts of each bin taken together.
 * Source: A. H. Murphy (1973), A new vector partition of the probability score, Journal of Applied Meteorology 12:595; the
 * parts within bins: D. B. Stephenson, C. A. S. Coelho, I. T. Jolliffe (2008), Weather and Forecasting 23:752.
 * @param bins  at least one forecast in all
 */
export function brierScore(bins: readonly (readonly Pick<Forecast, 'chance' | 'happened'>[])[]): BrierScore {
  const all = bins.flat();
  const base = all.filter(({ happened }) => happened).length / all.length;
  let score = 0;
  let reliability = 0;
  let resolution = 0;
  for (const own of bins) {
    if (own.length === 0) continue;
    const foretold = own.reduce((sum, { chance }) => sum + chance, 0) / own.length;
    const share = own.filter(({ happened }) => happened).length / own.length;
    const weight = own.length / all.length;
    reliability += weight * (foretold - share) ** 2;
    resolution += weight * (share - base) ** 2;
    for (const { chance, happened } of own) score += (chance - Number(happened)) ** 2 / all.length;
  }
  const uncertainty = base * (1 - base);
  return {
    score,
    reliability,
    resolution,
    uncertainty,
    within: score - reliability + resolution - uncertainty,
  };
}
