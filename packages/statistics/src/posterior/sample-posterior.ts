import { solveLower } from './cholesky.ts';
import {
  type ChainState,
  ellipticalSliceStep,
  type LogLikelihood,
  priorOverSwing,
  type Swing,
} from './elliptical-slice.ts';
import { normalAtMode } from './mode.ts';
import { type NumberSource, numberSource } from './number-source.ts';

export interface PosteriorOptions {
  seed: number | string;
  /** At least 2. */
  chains?: number;
  /** Steps of each chain that count. */
  draws?: number;
  /** Steps of each chain before those, which fit the law that steers and are thrown away. */
  pilot?: number;
  /** Points of the prior that are looked at for a start. */
  starts?: number;
  /** A cheaper likelihood, near enough to find the place by; what is drawn from does not depend on it. */
  guide?: LogLikelihood;
}

/** Draws of a posterior, and what they cost. */
export interface PosteriorDraws {
  dimension: number;
  /** [chain][draw · dimension + coordinate] */
  chains: Float64Array[];
  /** Draws of each chain. */
  draws: number;
  /** Likelihoods asked for, pilot included. */
  asked: number;
}

/** Spread of the swing over that of the law it is fitted to: wider is safe in the tails, narrower would stick there. */
export const WIDER = 1.1;
/** Chains start this many times as far apart as the fitted law is wide, so that their agreement means something. */
const APART = 1.5;
/** The pilot may widen a direction of the law at most this much; it never narrows one, as a chain then sticks in the tails. */
const WIDEST = 10;
const ROUNDS = 2;
/** One step in so many is followed by one about the prior: where a tail is the prior's own, the fitted law is too thin. */
export const PLAIN_EVERY = 4;

export const scaled = ({ mean, factor }: Swing, by: number): Swing => ({
  mean,
  factor: factor.map((row) => row.map((x) => by * x)),
});

export const pointOf = ({ mean, factor }: Swing, numbers: NumberSource): Float64Array => {
  const normals = Array.from(mean, () => numbers.normal());
  return mean.map((middle, i) => normals.reduce((sum, z, k) => sum + factor[i]![k]! * z, middle));
};

/**
 * A law moved to the middle of some draws and stretched along its own axes where they are wider: a whole
 * covariance from few draws that hang together would be mostly noise.
 */
function refitted({ mean, factor }: Swing, points: readonly Float64Array[]): Swing {
  const n = mean.length;
  const sum = new Float64Array(n);
  const squares = new Float64Array(n);
  const own = new Float64Array(n);
  for (const point of points) {
    solveLower(
      factor,
      point.map((x, i) => x - mean[i]!),
      own,
    );
    for (let i = 0; i < n; i++) {
      sum[i]! += own[i]! / points.length;
      squares[i]! += (own[i]! * own[i]!) / points.length;
    }
  }
  const stretch = Array.from(squares, (square, i) => {
    const sd = Math.sqrt(Math.max(0, square - sum[i]! * sum[i]!));
    return Math.min(WIDEST, Math.max(1, sd));
  });
  return {
    mean: mean.map((x, i) => factor[i]!.reduce((total, f, k) => total + f * sum[k]!, x)),
    factor: factor.map((row) => row.map((f, k) => f * stretch[k]!)),
  };
}

export const unitSwing = (n: number): Swing => ({
  mean: new Float64Array(n),
  factor: Array.from({ length: n }, (_, i) => {
    const row = new Float64Array(n);
    row[i] = 1;
    return row;
  }),
});

/** The best of some draws of the prior. @throws RangeError when none has a finite likelihood */
export function bestStart(
  logLikelihood: LogLikelihood,
  dimension: number,
  starts: number,
  numbers: NumberSource,
) {
  let best: Float64Array | undefined;
  let level = Number.NEGATIVE_INFINITY;
  for (let start = 0; start < starts; start++) {
    const point = Float64Array.from({ length: dimension }, () => numbers.normal());
    const here = logLikelihood(point, level);
    if (here > level) {
      best = point;
      level = here;
    }
  }
  if (best === undefined)
    throw new RangeError('no start has a finite likelihood: the evidence excludes every draw of the prior.');
  return best;
}

/**
 * Draws from a posterior whose prior is standard normal in every coordinate, by elliptical slice sampling about a normal
 * law: the one with the curvature of the posterior at its mode, then moved and stretched as a pilot's draws ask. Evidence much
 * sharper than the prior then costs no more than weak evidence. The law only steers proposals; what is drawn from is the
 * posterior itself. Four chains from starts that lie apart, for the diagnostics. The same seed gives the same draws.
 * @throws RangeError when no start has a finite likelihood
 */
export function samplePosterior(
  logLikelihood: LogLikelihood,
  dimension: number,
  options: PosteriorOptions,
): PosteriorDraws {
  const { seed, chains: count = 4, draws = 1000, pilot = 300, starts = 256, guide = logLikelihood } = options;
  const scratch = new Float64Array(dimension);
  const numbers = numberSource(seed, 'posterior/start');
  let asked = starts;
  const start = bestStart(logLikelihood, dimension, starts, numbers);
  const mode = normalAtMode(guide, start, (times) => {
    asked += times;
  });
  let swing = scaled(mode, WIDER);
  const sources = Array.from({ length: count }, (_, c) => numberSource(seed, `posterior/${c}`));
  const levelOf = (point: Float64Array): number =>
    logLikelihood(point, Number.NEGATIVE_INFINITY) + priorOverSwing(swing, point, scratch);
  const found = sources.map((source): ChainState => {
    const wide = scaled(mode, APART);
    for (let tries = 0; tries < 100; tries++) {
      const point = pointOf(wide, source);
      const level = levelOf(point);
      asked++;
      if (level > Number.NEGATIVE_INFINITY) return { point, level };
    }
    return { point: mode.mean, level: levelOf(mode.mean) };
  });
  let law = mode;
  for (let round = 0; round < ROUNDS; round++) {
    const points: Float64Array[] = [];
    found.forEach((state, c) => {
      for (let step = 0; step < pilot / ROUNDS; step++) {
        asked += ellipticalSliceStep(logLikelihood, swing, state, sources[c]!);
        if (3 * step >= pilot / ROUNDS) points.push(state.point);
      }
    });
    if (points.length === 0) break;
    law = refitted(law, points);
    swing = scaled(law, WIDER);
    for (const state of found) state.level = levelOf(state.point);
  }
  const plain = unitSwing(dimension);
  const chains = found.map((state, c) => {
    const kept = new Float64Array(draws * dimension);
    for (let step = 0; step < draws; step++) {
      asked += ellipticalSliceStep(logLikelihood, swing, state, sources[c]!);
      if (step % PLAIN_EVERY === 0) {
        state.level -= priorOverSwing(swing, state.point, scratch);
        asked += ellipticalSliceStep(logLikelihood, plain, state, sources[c]!);
        state.level += priorOverSwing(swing, state.point, scratch);
      }
      kept.set(state.point, step * dimension);
    }
    return kept;
  });
  return { dimension, chains, draws, asked };
}

/** One coordinate, or any number of the draws, chain by chain. */
export function chainsOf(posterior: PosteriorDraws, value: (point: Float64Array) => number): Float64Array[] {
  const { dimension, draws } = posterior;
  return posterior.chains.map((chain) =>
    Float64Array.from({ length: draws }, (_, i) => value(chain.subarray(i * dimension, (i + 1) * dimension))),
  );
}
