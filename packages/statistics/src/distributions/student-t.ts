import { betaCumulative, betaLogitQuantile, logBeta } from '../incomplete-beta.ts';
import { normalTail } from '../normal.ts';
import { type Distribution, notFinite, tooSmall } from './distribution.ts';
import { atScore, scoreTables } from './score-table.ts';

/**
 * Student's t about `mean`, stretched by `scale`: what is known of a mean after a few measurements
 * (scale = sample sd/√n, dof = n − 1). dof at least 1.5, so that a mean exists; up to 2 the variance is Infinity.
 * Cut off at `low` where the quantity cannot be less: with few degrees of freedom its tails reach anywhere. `mean` and
 * `scale` are those of the uncut law; a cut one has dof above 2.
 */
export interface StudentTLaw {
  readonly kind: 'student-t';
  readonly mean: number;
  readonly scale: number;
  readonly dof: number;
  readonly low?: number;
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

function standardDensity(t: number, dof: number): number {
  const logShape = -logBeta(dof / 2, 0.5) - ((dof + 1) / 2) * Math.log1p((t * t) / dof);
  return Math.exp(logShape) / Math.sqrt(dof);
}

/** What a cut leaves: the probability below it and above it. Nothing is cut where the law has no end. */
function kept({ mean, scale, dof, low }: StudentTLaw): { below: number; mass: number; end: number } {
  if (low === undefined) return { below: 0, mass: 1, end: -Infinity };
  const end = (low - mean) / scale;
  return { below: studentCumulative(end, dof), mass: studentCumulative(-end, dof), end };
}

/** Mean and variance of the standard law above its cut; derived by parts from d/dt (ν + t²) f = −(ν − 1) t f. */
function cutMoments(law: StudentTLaw): { mean: number; variance: number } {
  const { dof } = law;
  const { mass, end } = kept(law);
  const edge = (dof + end * end) * standardDensity(end, dof);
  const mean = edge / ((dof - 1) * mass);
  return { mean, variance: (dof + (end * edge) / mass) / (dof - 2) - mean * mean };
}

function lowProblem({ mean, low, dof }: StudentTLaw): string | undefined {
  if (low === undefined) return undefined;
  if (!(dof > 2)) return `dof: read ${dof}; a law that is cut off needs more than 2.`;
  return low < mean ? undefined : `low: read ${low}; less than the mean, ${mean}, is needed.`;
}

export const studentT: Distribution<StudentTLaw> = {
  problem: (law) =>
    notFinite('mean', law.mean) ??
    tooSmall('scale', law.scale, 0) ??
    (law.dof >= 1.5 && law.dof < Infinity
      ? undefined
      : `dof: read ${law.dof}; a finite number of at least 1.5 is needed (2 is that of three measurements).`) ??
    lowProblem(law),
  quantile: (law, u) => {
    const { below, mass, end } = kept(law);
    // From above, where 1 − u keeps the digits of the upper tail.
    const t =
      u < 0.5 ? studentQuantile(below + u * mass, law.dof) : -studentQuantile((1 - u) * mass, law.dof);
    return law.mean + law.scale * Math.max(end, t);
  },
  cumulative: (law, x) => {
    const { below, mass, end } = kept(law);
    const t = (x - law.mean) / law.scale;
    if (t <= end) return 0;
    return t < 0 ? (studentCumulative(t, law.dof) - below) / mass : 1 - studentCumulative(-t, law.dof) / mass;
  },
  density: (law, x) => {
    const t = (x - law.mean) / law.scale;
    const { mass, end } = kept(law);
    return t < end ? 0 : standardDensity(t, law.dof) / (law.scale * mass);
  },
  mean: (law) => (law.low === undefined ? law.mean : law.mean + law.scale * cutMoments(law).mean),
  variance: (law) => {
    const { scale, dof, low } = law;
    if (low !== undefined) return scale * scale * cutMoments(law).variance;
    return dof > 2 ? (scale * scale * dof) / (dof - 2) : Infinity;
  },
  support: ({ low = -Infinity }) => ({ low, high: Infinity }),
  fillFromNormals: (law, normals, out, count) => {
    const { mean, scale, dof, low } = law;
    const end = low === undefined ? -Infinity : (low - mean) / scale;
    const exact = (z: number): number => exactAtScore(law, z);
    const table = tableOf(dof, end, () => ({
      exact,
      density: (t) => standardDensity(t, dof) / kept(law).mass,
      decline: (t) => ((dof + 1) * t) / (dof + t * t),
    }));
    for (let i = 0; i < count; i++) out[i] = mean + scale * Math.max(end, atScore(table, normals[i]!, exact));
  },
};

const tableOf = scoreTables();

/** t of the normal score z, by whichever tail keeps the digits. */
function exactAtScore(law: StudentTLaw, z: number): number {
  const { below, mass } = kept(law);
  return z < 0
    ? studentQuantile(below + normalTail(-z) * mass, law.dof)
    : -studentQuantile(normalTail(z) * mass, law.dof);
}
