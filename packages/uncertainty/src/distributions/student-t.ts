import { betaCumulative, betaLogitQuantile, logBeta } from '../incomplete-beta.ts';
import { normalQuantileInside, normalTail } from '../normal.ts';
import { type Distribution, notFinite, tooSmall } from './distribution.ts';
import { lookUpStudent, type StudentTable, studentTable, TABLE_END } from './student-table.ts';

/**
 * Student's t about `mean`, stretched by `scale`: what is known of a mean after a few measurements
 * (scale = sample sd/√n, dof = n − 1). dof at least 1.5, so that a mean exists; up to 2 the variance is Infinity.
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

function standardDensity(t: number, dof: number): number {
  const logShape = -logBeta(dof / 2, 0.5) - ((dof + 1) / 2) * Math.log1p((t * t) / dof);
  return Math.exp(logShape) / Math.sqrt(dof);
}

/** t of the standard normal number z of the same probability. */
function exactAtNormal(z: number, dof: number): number {
  const size = -studentQuantile(normalTail(Math.abs(z)), dof);
  return z < 0 ? -size : size;
}

const MOST_TABLES = 64;
const tables = new Map<number, StudentTable>();

/** The table of a dof, made once: batches of draws come by the thousand, and a table takes half a millisecond. */
function tableFor(dof: number): StudentTable {
  const known = tables.get(dof);
  if (known !== undefined) return known;
  if (tables.size >= MOST_TABLES) tables.clear();
  const made = studentTable(
    dof,
    (z) => exactAtNormal(z, dof),
    (t) => standardDensity(t, dof),
  );
  tables.set(dof, made);
  return made;
}

function atNormal(table: StudentTable, z: number, dof: number): number {
  return z < TABLE_END && z > -TABLE_END ? lookUpStudent(table, z) : exactAtNormal(z, dof);
}

export const studentT: Distribution<StudentTLaw> = {
  problem: (law) =>
    notFinite('mean', law.mean) ??
    tooSmall('scale', law.scale, 0) ??
    (law.dof >= 1.5 && law.dof < Infinity
      ? undefined
      : `dof: read ${law.dof}; a finite number of at least 1.5 is needed (2 is that of three measurements).`),
  quantile: (law, u) => law.mean + law.scale * studentQuantile(u, law.dof),
  cumulative: (law, x) => studentCumulative((x - law.mean) / law.scale, law.dof),
  density: ({ mean, scale, dof }, x) => standardDensity((x - mean) / scale, dof) / scale,
  mean: (law) => law.mean,
  variance: ({ scale, dof }) => (dof > 2 ? (scale * scale * dof) / (dof - 2) : Infinity),
  support: () => ({ low: -Infinity, high: Infinity }),
  fill: ({ mean, scale, dof }, uniforms, out, count) => {
    const table = tableFor(dof);
    for (let i = 0; i < count; i++) {
      out[i] = mean + scale * atNormal(table, normalQuantileInside(uniforms[i]!), dof);
    }
  },
  fillFromNormals: ({ mean, scale, dof }, normals, out, count) => {
    const table = tableFor(dof);
    for (let i = 0; i < count; i++) out[i] = mean + scale * atNormal(table, normals[i]!, dof);
  },
};
