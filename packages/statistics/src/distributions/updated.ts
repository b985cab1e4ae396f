import type { PlainLaw } from '../laws.ts';
import { normalCumulative, normalDensity, normalQuantile } from '../normal.ts';
import { type Distribution, notFinite } from './distribution.ts';

/**
 * A law after something was learned: seen through the standard normal scores of the law it started from, its median
 * stands at `middle` and its spread is `below` and `above` that, all in standard deviations of those scores. With 0, 1
 * and 1 it is the law it started from; the ends of that law stay its ends.
 */
export interface UpdatedLaw {
  readonly kind: 'updated';
  readonly from: PlainLaw;
  readonly middle: number;
  readonly below: number;
  readonly above: number;
}

/** Score in the first law's space of a standard normal number. */
const scoreOf = ({ middle, below, above }: UpdatedLaw, z: number): number =>
  middle + (z < 0 ? below : above) * z;

/** The standard normal number of a score. */
const numberOf = ({ middle, below, above }: UpdatedLaw, score: number): number =>
  (score - middle) / (score < middle ? below : above);

const positive = (name: string, value: number): string | undefined =>
  Number.isFinite(value) && value > 0
    ? undefined
    : `${name}: read ${value}; a finite number above 0 is needed.`;

/** Half-width, sd, and steps of the sums for mean and variance: smooth over the whole line, so they converge fast. */
const REACH = 8;
const STEPS = 800;

/** Makes the law's functions from the table of the others. */
export function updatedDistribution(
  rowOf: (law: PlainLaw) => Distribution<PlainLaw>,
): Distribution<UpdatedLaw> {
  const single = new Float64Array(1);
  const valueAt = (law: UpdatedLaw, z: number): number => {
    single[0] = scoreOf(law, z);
    rowOf(law.from).fillFromNormals(law.from, single, single, 1);
    return single[0];
  };
  const moment = (law: UpdatedLaw, about: number, power: number): number => {
    let sum = 0;
    for (let i = 0; i <= STEPS; i++) {
      const z = REACH * ((2 * i) / STEPS - 1);
      sum += (valueAt(law, z) - about) ** power * normalDensity(z);
    }
    return (sum * 2 * REACH) / STEPS;
  };
  const fillFromNormals = (
    law: UpdatedLaw,
    normals: Float64Array,
    out: Float64Array,
    count: number,
  ): void => {
    for (let i = 0; i < count; i++) out[i] = scoreOf(law, normals[i]!);
    rowOf(law.from).fillFromNormals(law.from, out, out, count);
  };
  return {
    problem: (law) =>
      rowOf(law.from).problem(law.from) ??
      notFinite('middle', law.middle) ??
      positive('below', law.below) ??
      positive('above', law.above),
    quantile: (law, u) => valueAt(law, normalQuantile(u)),
    cumulative: (law, x) => {
      const score = normalQuantile(rowOf(law.from).cumulative(law.from, x));
      return normalCumulative(numberOf(law, score));
    },
    density: (law, x) => {
      const row = rowOf(law.from);
      const u = row.cumulative(law.from, x);
      if (u <= 0 || u >= 1) return 0;
      const score = normalQuantile(u);
      const spread = score < law.middle ? law.below : law.above;
      const z = numberOf(law, score);
      return (normalDensity(z) / (spread * normalDensity(score))) * row.density(law.from, x);
    },
    mean: (law) => moment(law, 0, 1),
    variance: (law) => moment(law, moment(law, 0, 1), 2),
    support: (law) => rowOf(law.from).support(law.from),
    fillFromNormals,
  };
}
