import { normalDensity, normalQuantile, normalTail } from '../normal.ts';
import { pieceAt, quinticTable } from '../quintic.ts';
import { sampleQuantile } from '../sample-quantile.ts';
import { type Distribution, notFinite, tooSmall } from './distribution.ts';
import { placeOfShare, type Side } from './place-of-share.ts';

/**
 * Measured values themselves as a law, each as likely as the next: as they are (bandwidth 0), or each smeared to a normal
 * law whose sd is the bandwidth, so that the law reaches beyond the outermost of them. Cut off at `low` where the
 * quantity cannot be less; only a smoothed law reaches there.
 * Sources: the distribution function of a sample; kernel density estimate, B. W. Silverman (1986), Density Estimation
 * for Statistics and Data Analysis.
 */
export interface EmpiricalLaw {
  readonly kind: 'empirical';
  /** Rising, at least two. */
  readonly values: readonly number[];
  readonly bandwidth: number;
  readonly low?: number;
}

/**
 * Bandwidth by Silverman's rule of thumb, in the values' unit: 0.9 min(s, R/1.34) n^(−1/5) with the sample sd s and the
 * range R between the quartiles, which keeps values that stand far apart from smearing the rest; s alone where R is 0.
 * Source: Silverman (1986), eq. 3.31 (from memory; the rule that R calls bw.nrd0).
 * @param values  rising, at least two; fewer: RangeError
 */
export function silvermanBandwidth(values: readonly number[]): number {
  const n = values.length;
  if (n < 2) throw new RangeError(`values: read ${n}; at least 2 are needed.`);
  const sorted = Float64Array.from(values);
  const middle = values.reduce((sum, value) => sum + value, 0) / n;
  const sd = Math.sqrt(values.reduce((sum, value) => sum + (value - middle) ** 2, 0) / (n - 1));
  const quartiles = (sampleQuantile(sorted, 0.75) - sampleQuantile(sorted, 0.25)) / 1.34;
  return 0.9 * (quartiles > 0 ? Math.min(sd, quartiles) : sd) * n ** -0.2;
}

/** Share of the uncut law on one side of t, with all its digits; smoothed laws only. */
function share({ values, bandwidth }: EmpiricalLaw, t: number, side: Side): number {
  const sign = side === 'above' ? 1 : -1;
  let sum = 0;
  for (const value of values) sum += normalTail((sign * (t - value)) / bandwidth);
  return sum / values.length;
}

function uncutDensity({ values, bandwidth }: EmpiricalLaw, t: number): number {
  let sum = 0;
  for (const value of values) sum += normalDensity((t - value) / bandwidth);
  return sum / (values.length * bandwidth);
}

/** Slope of ln(density), negative: what a table needs of it. */
function decline({ values, bandwidth }: EmpiricalLaw, t: number): number {
  let sum = 0;
  let weighted = 0;
  for (const value of values) {
    const off = (t - value) / bandwidth;
    const weight = normalDensity(off);
    sum += weight;
    weighted += weight * off;
  }
  return weighted / (sum * bandwidth);
}

const massOf = (law: EmpiricalLaw): number => (law.low === undefined ? 1 : share(law, law.low, 'above'));

/** Where the uncut smoothed law leaves a share on one side: between the quantiles of its outermost kernels. */
function placeOf(law: EmpiricalLaw, wanted: number, side: Side): number {
  const { values, bandwidth } = law;
  const score = side === 'below' ? normalQuantile(wanted) : -normalQuantile(wanted);
  const low = values[0]! + bandwidth * score;
  const high = values.at(-1)! + bandwidth * score;
  return placeOfShare(
    { share: (t) => share(law, t, side), density: (t) => uncutDensity(law, t) },
    wanted,
    side,
    low,
    high,
    1e-15 * Math.max(Math.abs(low), Math.abs(high)),
  );
}

/** Value of the share u, told by whichever tail keeps the digits. */
function smoothValue(law: EmpiricalLaw, tail: number, side: Side): number {
  const mass = massOf(law);
  const place =
    side === 'above' ? placeOf(law, tail * mass, 'above') : placeOf(law, 1 - mass + tail * mass, 'below');
  return law.low === undefined ? place : Math.max(law.low, place);
}

const atNormal = (law: EmpiricalLaw, z: number): number =>
  z < 0 ? smoothValue(law, normalTail(-z), 'below') : smoothValue(law, normalTail(z), 'above');

/** As they are: the lowest value that has at least a share u at or below it. */
const stepValue = (values: readonly number[], u: number): number =>
  values[Math.min(values.length - 1, Math.max(0, Math.ceil(u * values.length) - 1))]!;

const END = 8;
const STEPS = 32;

/** A law by its normal score, and which pieces of the table can be trusted. */
interface Smooth {
  pieces: Float64Array;
  sound: Uint8Array;
}

/** A table lives as long as its law. */
const tables = new WeakMap<EmpiricalLaw, Smooth>();

/**
 * The table of a smoothed law. Between values that stand far apart the law rises too fast for a piece: such pieces are
 * found by a look at two places inside, and left to the exact quantile.
 */
function tableOf(law: EmpiricalLaw): Smooth {
  const known = tables.get(law);
  if (known !== undefined) return known;
  const mass = massOf(law);
  const count = 2 * END * STEPS;
  const pieces = quinticTable(count, (i) => {
    const z = i / STEPS - END;
    const value = atNormal(law, z);
    const slope = (normalDensity(z) * mass) / uncutDensity(law, value) / STEPS;
    return { value, slope, curvature: slope * (slope * decline(law, value) - z / STEPS) };
  });
  const fine = 1e-11 * (law.values.at(-1)! - law.values[0]! + law.bandwidth);
  const holds = (i: number, inside: number): boolean =>
    Math.abs(pieceAt(pieces, i, inside) - atNormal(law, (i + inside) / STEPS - END)) < fine;
  const sound = Uint8Array.from({ length: count }, (_, i) => (holds(i, 0.35) && holds(i, 0.65) ? 1 : 0));
  const table = { pieces, sound };
  tables.set(law, table);
  return table;
}

/** Mean and variance of the kernels above the cut: moments of truncated normal laws, derived, about the values' mean. */
function moments({ values, bandwidth, low = -Infinity }: EmpiricalLaw): { mean: number; variance: number } {
  const n = values.length;
  const middle = values.reduce((sum, value) => sum + value, 0) / n;
  let mass = 0;
  let first = 0;
  let second = 0;
  for (const value of values) {
    const off = value - middle;
    const end = bandwidth > 0 ? (low - value) / bandwidth : -Infinity;
    const kept = normalTail(end);
    const edge = end === -Infinity ? 0 : bandwidth * normalDensity(end);
    mass += kept;
    first += off * kept + edge;
    second += (off * off + bandwidth * bandwidth) * kept + (edge === 0 ? 0 : edge * (off + low - middle));
  }
  const mean = first / mass;
  return { mean: middle + mean, variance: second / mass - mean * mean };
}

function problemOf({ values, bandwidth, low }: EmpiricalLaw): string | undefined {
  if (values.length < 2) return `values: read ${values.length}; at least 2 are needed.`;
  for (const [i, value] of values.entries()) {
    const unsound = notFinite('values', value);
    if (unsound !== undefined) return unsound;
    if (i > 0 && value < values[i - 1]!)
      return `values: read ${value} after ${values[i - 1]}; they must rise.`;
  }
  const unsound = tooSmall('bandwidth', bandwidth, 0);
  if (unsound !== undefined || low === undefined) return unsound;
  return low <= values[0]!
    ? undefined
    : `low: read ${low}; at most the least value, ${values[0]}, is needed.`;
}

export const empirical: Distribution<EmpiricalLaw> = {
  problem: problemOf,
  quantile: (law, u) => {
    if (law.bandwidth === 0) return stepValue(law.values, u);
    return u < 0.5 ? smoothValue(law, u, 'below') : smoothValue(law, 1 - u, 'above');
  },
  cumulative: (law, x) => {
    const { values, bandwidth, low = -Infinity } = law;
    if (bandwidth === 0) return values.filter((value) => value <= x).length / values.length;
    if (x <= low) return 0;
    const mass = massOf(law);
    const below = (share(law, x, 'below') - (1 - mass)) / mass;
    return below < 0.5 ? Math.max(0, below) : 1 - share(law, x, 'above') / mass;
  },
  density: (law, x) => {
    const { values, bandwidth, low = -Infinity } = law;
    if (bandwidth === 0) return values.includes(x) ? Infinity : 0;
    return x < low ? 0 : uncutDensity(law, x) / massOf(law);
  },
  mean: (law) => moments(law).mean,
  variance: (law) => moments(law).variance,
  support: ({ values, bandwidth, low = -Infinity }) =>
    bandwidth === 0 ? { low: values[0]!, high: values.at(-1)! } : { low, high: Infinity },
  fillFromNormals: (law, normals, out, count) => {
    const { values, bandwidth } = law;
    if (bandwidth === 0) {
      for (let i = 0; i < count; i++) {
        const z = normals[i]!;
        out[i] = z < 0 ? stepValue(values, normalTail(-z)) : stepValue(values, 1 - normalTail(z));
      }
      return;
    }
    const { pieces, sound } = tableOf(law);
    for (let i = 0; i < count; i++) {
      const z = normals[i]!;
      const position = (z + END) * STEPS;
      const piece = Math.floor(position);
      out[i] = sound[piece] === 1 ? pieceAt(pieces, piece, position - piece) : atNormal(law, z);
    }
  },
};
