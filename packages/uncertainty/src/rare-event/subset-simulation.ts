import { studentQuantile } from '../distributions/student-t.ts';
import {
  type CountedMargin,
  countedMargin,
  type Estimate,
  type Margin,
  relativeInterval,
} from './estimate.ts';
import { normalSource, type Source } from './normal-source.ts';

export interface SubsetOptions {
  readonly seed: number | string;
  /** Points in each level, a multiple of 10, at least 100. Default 1000. */
  readonly draws?: number;
}

/** A run of subset simulation with the failing points of its last level, the material for a search of design points. */
export interface SubsetRun {
  readonly estimate: Estimate;
  /** Failing points row by row, spread as the failure region's own probability is. */
  readonly failing: Float64Array;
  readonly failingCount: number;
}

/** Each level keeps a tenth of its points, and each of these grows a chain of ten. */
const CHAIN = 10;
/** Below 1e-14 no statement about an engineering input's tail means anything. */
const MOST_LEVELS = 15;
/**
 * Correlation taken between the errors of neighbouring levels, whose chains share seeds: own choice, so that the
 * stated CoV is that of 300 repeats on `PROBLEMS` (with none it is up to 1.5 times too low at seven levels).
 */
const LEVEL_CORRELATION = 0.5;
/** Beyond this CoV an interval on the logarithm is no guide any more. */
const TRUSTED_COV = 0.5;
/** Acceptance rate at which the chains forget fastest (Papaioannou et al. 2015). */
const BEST_ACCEPTANCE = 0.44;

interface Level {
  readonly points: Float64Array;
  readonly margins: Float64Array;
}

/**
 * Squared CoV of one level's share, with the correlation along its chains: point i of step s of chain c is index
 * s·chains + c. Source: S. K. Au and J. L. Beck (2001), Prob. Eng. Mech. 16:263, eq. 20 and 29.
 */
function levelVariance(inside: Uint8Array, share: number, chains: number): number {
  const n = inside.length;
  const steps = n / chains;
  let correlation = 0;
  for (let lag = 1; lag < steps; lag++) {
    let both = 0;
    for (let i = 0; i + lag * chains < n; i++) both += inside[i]! & inside[i + lag * chains]!;
    const covariance = both / (n - lag * chains) - share * share;
    correlation += (1 - lag / steps) * covariance;
  }
  const gamma = (2 * correlation) / (share * (1 - share));
  return ((1 - share) / (share * n)) * Math.max(0, 1 + gamma);
}

/** Standard deviation of each coordinate over the seeds, at most 1: how far a chain may step in it. */
function stepSizes(points: Float64Array, seeds: Uint32Array, d: number): Float64Array {
  const sizes = new Float64Array(d);
  for (let k = 0; k < d; k++) {
    let sum = 0;
    let squares = 0;
    for (const seed of seeds) sum += points[seed * d + k]!;
    for (const seed of seeds) squares += (points[seed * d + k]! - sum / seeds.length) ** 2;
    sizes[k] = Math.min(1, Math.sqrt(squares / seeds.length));
  }
  return sizes;
}

/** Next level: chains from the seeds, all a step at a time, that never leave margin ≤ threshold. */
function climb(
  counted: CountedMargin,
  from: Level,
  seeds: Uint32Array,
  threshold: number,
  tune: { scale: number },
  normals: Source,
): Level {
  const d = counted.dimension;
  const chains = seeds.length;
  const points = new Float64Array(from.points.length);
  const margins = new Float64Array(from.margins.length);
  seeds.forEach((seed, c) => {
    points.set(from.points.subarray(seed * d, seed * d + d), c * d);
    margins[c] = from.margins[seed]!;
  });
  const sizes = stepSizes(from.points, seeds, d);
  const proposal = new Float64Array(chains * d);
  const proposed = new Float64Array(chains);
  for (let step = 1; step < CHAIN; step++) {
    const now = (step - 1) * chains;
    normals(proposal, chains * d);
    for (let k = 0; k < d; k++) {
      const size = Math.min(1, tune.scale * sizes[k]!);
      const keep = Math.sqrt(1 - size * size);
      for (let c = 0; c < chains; c++) {
        proposal[c * d + k] = keep * points[(now + c) * d + k]! + size * proposal[c * d + k]!;
      }
    }
    counted.evaluate(proposal, chains, proposed);
    let accepted = 0;
    for (let c = 0; c < chains; c++) {
      const target = now + chains + c;
      const moves = proposed[c]! <= threshold;
      if (moves) accepted += 1;
      margins[target] = moves ? proposed[c]! : margins[now + c]!;
      const row = moves
        ? proposal.subarray(c * d, c * d + d)
        : points.subarray((now + c) * d, (now + c + 1) * d);
      points.set(row, target * d);
    }
    tune.scale *= Math.exp((accepted / chains - BEST_ACCEPTANCE) / Math.sqrt(step));
  }
  return { points, margins };
}

/** The run on a counted margin; `calls` of the estimate are all calls of the counter so far. */
export function subsetRun(counted: CountedMargin, options: SubsetOptions): SubsetRun {
  const n = options.draws ?? 1000;
  if (!(Number.isInteger(n / CHAIN) && n >= 100)) {
    throw new RangeError(`draws: read ${n}; a multiple of ${CHAIN} of at least 100 is needed.`);
  }
  const d = counted.dimension;
  const chains = n / CHAIN;
  const normals = normalSource(options.seed, 'subset');
  const tune = { scale: 0.6 };
  let level: Level = { points: new Float64Array(n * d), margins: new Float64Array(n) };
  normals(level.points, n * d);
  counted.evaluate(level.points, n, level.margins);

  let probability = 1;
  let variance = 0;
  let before = 0;
  let last = Infinity;
  for (let depth = 0; ; depth++) {
    const order = Uint32Array.from(level.margins.keys()).sort(
      (a, b) => level.margins[a]! - level.margins[b]!,
    );
    const threshold = level.margins[order[chains - 1]!]!;
    const done = threshold < 0;
    const inside = Uint8Array.from(level.margins, (g) => Number(done ? g < 0 : g <= threshold));
    const share = inside.reduce((sum, one) => sum + one, 0) / n;
    const stuck = !done && (threshold >= last || depth + 1 >= MOST_LEVELS);
    probability *= share;
    // The first level is of independent draws: every point a chain of its own.
    const own = depth === 0 ? (1 - share) / (share * n) : levelVariance(inside, share, chains);
    const shared = depth <= 1 ? 0 : 2 * LEVEL_CORRELATION * Math.sqrt(own * before);
    variance += own + shared;
    before = own;
    if (done || stuck) {
      const failed = order.filter((i) => level.margins[i]! < 0);
      const failing = new Float64Array(failed.length * d);
      failed.forEach((i, row) => {
        failing.set(level.points.subarray(i * d, i * d + d), row * d);
      });
      const cov = Math.sqrt(variance);
      const estimate = done
        ? judged(probability, cov, counted.calls())
        : nothingFound(probability, cov, counted.calls());
      return { estimate, failing, failingCount: failed.length };
    }
    last = threshold;
    level = climb(counted, level, order.subarray(0, chains), threshold, tune, normals);
  }
}

function judged(probability: number, cov: number, calls: number, deviate?: number): Estimate {
  const estimate = {
    probability,
    cov,
    ...relativeInterval(probability, cov, deviate),
    calls,
    effectiveDraws: (1 - probability) / (cov * cov),
    regions: 0,
    method: 'subset simulation',
  } as const;
  if (cov <= TRUSTED_COV) return { ...estimate, trusted: true };
  const reason = `the estimate varies by ${Math.round(100 * cov)} %; more draws a level are needed.`;
  return { ...estimate, trusted: false, reason };
}

/** What a run says that ended without failure: nothing but an upper end. */
function nothingFound(reached: number, cov: number, calls: number): Estimate {
  return {
    probability: 0,
    cov: Infinity,
    low: 0,
    high: relativeInterval(reached, cov).high,
    calls,
    effectiveDraws: 0,
    regions: 0,
    trusted: false,
    reason: `no failure was found down to a probability of ${reached.toPrecision(1)}; there may be none.`,
    method: 'subset simulation',
  };
}

/**
 * Failure probability as a product of larger ones, P(margin ≤ b₁) P(margin ≤ b₂ | margin ≤ b₁) …, each level a tenth
 * of the one before, its points reached by Markov chains from the best points of the last. Needs no gradient and no
 * idea of where failure lies, and dimension costs it little; the price is 1000 calls a factor of ten for some 30 %.
 * Source: Au & Beck (2001); chains: conditional sampling with adapted step, I. Papaioannou, W. Betz, K. Zwirglmaier
 * and D. Straub (2015), Prob. Eng. Mech. 41:89.
 * Weak where a small failure region lies apart from the slope of the margin that the levels follow: the chains do
 * not find it, and nothing in the figures shows it.
 * @param margin     see Margin
 * @param dimension  of the standard normal space, at least 1
 */
export function subsetSimulation(margin: Margin, dimension: number, options: SubsetOptions): Estimate {
  return subsetRun(countedMargin(margin, dimension), options).estimate;
}

const REPEATS = 8;

/**
 * Mean of eight independent subset runs: its interval comes from how they differ, not from a model of the chains.
 * @param options.draws  points in each level of each run
 */
export function repeatedSubset(counted: CountedMargin, options: SubsetOptions): Estimate {
  const runs = Array.from({ length: REPEATS }, (_, i) =>
    subsetRun(counted, { ...options, seed: `${options.seed} repeat ${i}` }),
  );
  const values = runs.map((run) => run.estimate.probability);
  const probability = values.reduce((sum, p) => sum + p, 0) / REPEATS;
  const spread = values.reduce((sum, p) => sum + (p - probability) ** 2, 0) / (REPEATS - 1);
  const cov = probability === 0 ? Infinity : Math.sqrt(spread / REPEATS) / probability;
  if (values.some((p) => p === 0)) {
    const high = Math.max(...runs.map((run) => run.estimate.high));
    const reason = `${values.filter((p) => p === 0).length} of ${REPEATS} runs found no failure at all.`;
    return {
      probability,
      cov,
      low: 0,
      high,
      calls: counted.calls(),
      effectiveDraws: 0,
      regions: 0,
      trusted: false,
      reason,
      method: 'subset simulation',
    };
  }
  return judged(probability, cov, counted.calls(), studentQuantile(0.975, REPEATS - 1));
}
