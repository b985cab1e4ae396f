import { studentQuantile } from '../distributions/student-t.ts';
import {
  type CountedMargin,
  countedMargin,
  type Estimate,
  type Margin,
  relativeInterval,
} from './estimate.ts';
import { normalSource } from './normal-source.ts';
import { CHAIN, climb, type Level, levelVariance } from './subset-levels.ts';

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

/** Below 1e-14 no statement about an engineering input's tail means anything. */
const MOST_LEVELS = 15;
/**
 * Correlation taken between the errors of neighbouring levels, whose chains share seeds: own choice, so that the
 * stated CoV is that of 300 repeats on `PROBLEMS` (with none it is up to 1.5 times too low at seven levels).
 */
const LEVEL_CORRELATION = 0.5;
/** Beyond this CoV an interval on the logarithm is no guide any more. */
const TRUSTED_COV = 0.5;

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
 * Mean of eight independent subset runs. Its CoV is the larger of two: how the runs differ, and what each says of
 * itself; eight runs may agree by chance.
 * @param options.draws  points in each level of each run
 */
export function repeatedSubset(counted: CountedMargin, options: SubsetOptions): Estimate {
  const runs = Array.from({ length: REPEATS }, (_, i) =>
    subsetRun(counted, { ...options, seed: `${options.seed} repeat ${i}` }),
  );
  const values = runs.map((run) => run.estimate.probability);
  const probability = values.reduce((sum, p) => sum + p, 0) / REPEATS;
  const scatter = values.reduce((sum, p) => sum + (p - probability) ** 2, 0) / (REPEATS - 1);
  if (values.some((p) => p === 0)) {
    const high = Math.max(...runs.map((run) => run.estimate.high));
    const reason = `${values.filter((p) => p === 0).length} of ${REPEATS} runs found no failure at all.`;
    return {
      probability,
      cov: Infinity,
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
  const stated =
    runs.reduce((sum, { estimate }) => sum + (estimate.cov * estimate.probability) ** 2, 0) / REPEATS;
  const cov = Math.sqrt(Math.max(scatter, stated) / REPEATS) / probability;
  return judged(probability, cov, counted.calls(), studentQuantile(0.975, REPEATS - 1));
}
