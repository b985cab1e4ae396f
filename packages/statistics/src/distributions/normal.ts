import { normalCumulative, normalDensity, normalQuantile } from '../normal.ts';
import { type Distribution, notFinite, tooSmall } from './distribution.ts';

/** The normal law; sd 0 is a constant. */
export interface NormalLaw {
  readonly kind: 'normal';
  readonly mean: number;
  readonly sd: number;
}

export const normal: Distribution<NormalLaw> = {
  problem: (law) => notFinite('mean', law.mean) ?? tooSmall('sd', law.sd, 0),
  quantile: (law, u) => law.mean + law.sd * normalQuantile(u),
  cumulative: (law, x) => normalCumulative((x - law.mean) / law.sd),
  density: (law, x) => normalDensity((x - law.mean) / law.sd) / law.sd,
  mean: (law) => law.mean,
  variance: (law) => law.sd * law.sd,
  support: () => ({ low: -Infinity, high: Infinity }),
  fillFromNormals: ({ mean, sd }, normals, out, count) => {
    for (let i = 0; i < count; i++) out[i] = mean + sd * normals[i]!;
  },
};
