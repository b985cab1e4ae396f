import { normalDensity, normalQuantile, normalTail } from '../normal.ts';
import { type Distribution, notFinite, tooSmall } from './distribution.ts';
import { atScore, scoreTables } from './score-table.ts';

/** A normal law cut off at low and high; mean and sd are those of the uncut law, the ends may be ±Infinity. */
export interface TruncatedNormalLaw {
  readonly kind: 'truncated-normal';
  readonly mean: number;
  readonly sd: number;
  readonly low: number;
  readonly high: number;
}

/**
 * The cut in standard units, turned round if both ends lie above the mean, so that all sums are of lower-tail
 * probabilities: between far cuts 1 − tiny would lose them.
 */
interface Cut {
  readonly sign: 1 | -1;
  readonly a: number;
  readonly b: number;
  readonly below: number; // Φ(a)
  readonly above: number; // Q(b)
  readonly mass: number;
}

function cut(law: TruncatedNormalLaw): Cut {
  const low = (law.low - law.mean) / law.sd;
  const high = (law.high - law.mean) / law.sd;
  const sign = low > 0 ? -1 : 1;
  const a = sign === 1 ? low : -high;
  const b = sign === 1 ? high : -low;
  const below = normalTail(-a);
  const above = normalTail(b);
  const mass = b <= 0 ? normalTail(-b) - below : 1 - below - above;
  return { sign, a, b, below, above, mass };
}

// Gauss-Legendre, 10 points on [−1, 1], positive half (Abramowitz & Stegun 1964, table 25.4).
const NODES = [
  0.1488743389816312, 0.4333953941292472, 0.6794095682990244, 0.8650633666889845, 0.9739065285171717,
];
const WEIGHTS = [
  0.2955242247147529, 0.2692667193099964, 0.219086362515982, 0.1494513491505806, 0.0666713443086881,
];
const NARROW = 1;

/** Mean and variance in standard units, sign not yet applied. */
function moments({ a, b, mass }: Cut): { mean: number; variance: number } {
  if (b - a < NARROW) {
    // In a narrow window the closed form subtracts near-equal numbers; integrate about the middle instead.
    const centre = (a + b) / 2;
    const half = (b - a) / 2;
    let m0 = 0;
    let m1 = 0;
    let m2 = 0;
    for (let k = 0; k < NODES.length; k++) {
      for (const side of [-1, 1]) {
        const t = side * half * NODES[k]!;
        const weight = WEIGHTS[k]! * Math.exp(-t * (centre + t / 2));
        m0 += weight;
        m1 += weight * t;
        m2 += weight * t * t;
      }
    }
    const shift = m1 / m0;
    return { mean: centre + shift, variance: m2 / m0 - shift * shift };
  }
  const densityA = normalDensity(a) / mass;
  const densityB = normalDensity(b) / mass;
  const mean = densityA - densityB;
  const lower = a === -Infinity ? 0 : a * densityA;
  const upper = b === Infinity ? 0 : b * densityB;
  return { mean, variance: 1 + lower - upper - mean * mean };
}

/** Standard quantile where a share `under` of the law lies below and `over` above. */
function standardQuantile({ a, b, below, above, mass }: Cut, under: number, over: number): number {
  const p = below + under * mass;
  const z = p <= 0.5 ? normalQuantile(p) : -normalQuantile(above + over * mass);
  return Math.min(b, Math.max(a, z));
}

/** The standard quantile at the normal score z. */
function standardAtScore(c: Cut, z: number): number {
  return standardQuantile(c, normalTail(-z), normalTail(z));
}

function end(name: string, value: number): string | undefined {
  return Number.isNaN(value) ? `${name}: read NaN; a number or ±Infinity is needed.` : undefined;
}

function room(law: TruncatedNormalLaw): string | undefined {
  if (law.high < law.low) return `high: read ${law.high}; at least low, ${law.low}, is needed.`;
  if (law.low === law.high) return notFinite('low', law.low);
  if (law.sd === 0) {
    return law.mean >= law.low && law.mean <= law.high
      ? undefined
      : `mean: read ${law.mean}; with sd 0 it has to lie between low, ${law.low}, and high, ${law.high}.`;
  }
  return cut(law).mass > 1e-280
    ? undefined
    : `low, high: ${law.low} to ${law.high} lies too far from mean ${law.mean} at sd ${law.sd}; nothing of the law is left there.`;
}

export const truncatedNormal: Distribution<TruncatedNormalLaw> = {
  problem: (law) =>
    notFinite('mean', law.mean) ??
    tooSmall('sd', law.sd, 0) ??
    end('low', law.low) ??
    end('high', law.high) ??
    room(law),
  quantile: (law, u) => {
    const c = cut(law);
    return (
      law.mean +
      law.sd * c.sign * (c.sign === 1 ? standardQuantile(c, u, 1 - u) : standardQuantile(c, 1 - u, u))
    );
  },
  cumulative: (law, x) => {
    if (x <= law.low) return 0;
    if (x >= law.high) return 1;
    const c = cut(law);
    const z = (c.sign * (x - law.mean)) / law.sd;
    const share = z <= 0 ? (normalTail(-z) - c.below) / c.mass : 1 - (normalTail(z) - c.above) / c.mass;
    return c.sign === 1 ? share : 1 - share;
  },
  density: (law, x) =>
    x < law.low || x > law.high ? 0 : normalDensity((x - law.mean) / law.sd) / (law.sd * cut(law).mass),
  mean: (law) => {
    const c = cut(law);
    return law.mean + law.sd * c.sign * moments(c).mean;
  },
  variance: (law) => law.sd * law.sd * moments(cut(law)).variance,
  support: ({ low, high }) => ({ low, high }),
  fillFromNormals: (law, normals, out, count) => {
    const c = cut(law);
    const { sign, a, b, mass } = c;
    const scale = law.sd * sign;
    const exact = (z: number): number => standardAtScore(c, z);
    const table = tableOf(a, b, () => ({
      exact,
      density: (t) => normalDensity(t) / mass,
      decline: (t) => t,
    }));
    for (let i = 0; i < count; i++) {
      const t = atScore(table, sign * normals[i]!, exact);
      out[i] = law.mean + scale * Math.min(b, Math.max(a, t));
    }
  },
};

const tableOf = scoreTables();
