import { normalCumulative, normalDensity, normalQuantile } from '../normal.ts';
import { type Distribution, tooSmall } from './distribution.ts';

/**
 * The law whose logarithm is normal. Named by median and coefficient of variation, because "mean and sd" of a
 * log-normal is read in two ways that give different answers. The sd of the logarithm is √ln(1 + cov²).
 */
export interface LogNormalLaw {
  readonly kind: 'log-normal';
  readonly median: number;
  readonly cov: number;
}

const logSd = (law: LogNormalLaw): number => Math.sqrt(Math.log1p(law.cov * law.cov));

export const logNormal: Distribution<LogNormalLaw> = {
  problem: (law) =>
    Number.isFinite(law.median) && law.median > 0
      ? tooSmall('cov', law.cov, 0)
      : `median: read ${law.median}; a finite number above 0 is needed.`,
  quantile: (law, u) => law.median * Math.exp(logSd(law) * normalQuantile(u)),
  cumulative: (law, x) => (x <= 0 ? 0 : normalCumulative(Math.log(x / law.median) / logSd(law))),
  density: (law, x) => {
    if (x <= 0) return 0;
    const sd = logSd(law);
    return normalDensity(Math.log(x / law.median) / sd) / (sd * x);
  },
  mean: (law) => law.median * Math.sqrt(1 + law.cov * law.cov),
  variance: (law) => {
    const square = law.cov * law.cov;
    return law.median * law.median * (1 + square) * square;
  },
  support: () => ({ low: 0, high: Infinity }),
  fillFromNormals: (law, normals, out, count) => {
    const { median } = law;
    const sd = logSd(law);
    for (let i = 0; i < count; i++) out[i] = median * Math.exp(sd * normals[i]!);
  },
};
