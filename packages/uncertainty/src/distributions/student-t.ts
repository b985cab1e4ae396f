import { betaCumulative, betaLogitQuantile, logBeta } from '../incomplete-beta.ts';
import { type Distribution, notFinite, tooSmall } from './distribution.ts';

/**
 * Student's t about `mean`, stretched by `scale`: what is known of a mean after a few measurements
 * (scale = sample sd/√n, dof = n − 1). dof above 1, so that a mean exists; up to 2 the variance is Infinity.
 */
export interface StudentTLaw {
  readonly kind: 'student-t';
  readonly mean: number;
  readonly scale: number;
  readonly dof: number;
}

/**
 * Quantile of Student's t, 1. Relative error about 1e-14.
 * @param p    probability, inside (0, 1); 0 and 1 give ∓Infinity; outside: RangeError
 * @param dof  degrees of freedom, above 0, need not be whole
 * Source: T² = dof (1 − X)/X with X beta(dof/2, ½) (Abramowitz & Stegun 1964, 26.7.1).
 * @example studentQuantile(0.975, 9)  // 2.262157162798
 */
export function studentQuantile(p: number, dof: number): number {
  if (!(p >= 0 && p <= 1)) throw new RangeError(`p: read ${p}; a probability from 0 to 1 is needed.`);
  if (!(dof > 0 && dof < Infinity))
    throw new RangeError(`dof: read ${dof}; a finite number above 0 is needed.`);
  if (p === 0.5) return 0;
  const both = 2 * Math.min(p, 1 - p);
  if (both === 0) return p === 0 ? -Infinity : Infinity;
  const logit =
    both <= 0.5 ? betaLogitQuantile(both, dof / 2, 0.5) : -betaLogitQuantile(1 - both, 0.5, dof / 2);
  const size = Math.sqrt(dof) * Math.exp(-logit / 2);
  return p < 0.5 ? -size : size;
}

/** Probability that Student's t lies below t, 1; dof above 0. Both tails keep their digits below ½. */
export function studentCumulative(t: number, dof: number): number {
  if (t === 0) return 0.5;
  const logit = Math.log(dof) - 2 * Math.log(Math.abs(t));
  const tail = betaCumulative(logit, dof / 2, 0.5) / 2;
  return t < 0 ? tail : 1 - tail;
}

export const studentT: Distribution<StudentTLaw> = {
  problem: (law) =>
    notFinite('mean', law.mean) ??
    tooSmall('scale', law.scale, 0) ??
    (law.dof > 1 && law.dof < Infinity
      ? undefined
      : `dof: read ${law.dof}; a finite number above 1 is needed (at least three measurements).`),
  quantile: (law, u) => law.mean + law.scale * studentQuantile(u, law.dof),
  cumulative: (law, x) => studentCumulative((x - law.mean) / law.scale, law.dof),
  density: ({ mean, scale, dof }, x) => {
    const t = (x - mean) / scale;
    const logShape = -logBeta(dof / 2, 0.5) - ((dof + 1) / 2) * Math.log1p((t * t) / dof);
    return Math.exp(logShape) / (scale * Math.sqrt(dof));
  },
  mean: (law) => law.mean,
  variance: ({ scale, dof }) => (dof > 2 ? (scale * scale * dof) / (dof - 2) : Infinity),
  support: () => ({ low: -Infinity, high: Infinity }),
  fill: ({ mean, scale, dof }, uniforms, out, count) => {
    for (let i = 0; i < count; i++) out[i] = mean + scale * studentQuantile(uniforms[i]!, dof);
  },
};
