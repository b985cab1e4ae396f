import { choleskyFactor } from './cholesky.ts';
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
const WIDER = 1.1;
/** Chains start this many times as far apart as the fitted law is wide, so that their agreement means something. */
const APART = 1.5;
/** Draws of the pilot, times the dimension, from which its covariance says more than the curvature at the mode. */
const ENOUGH = 12;

const scaled = ({ mean, factor }: Swing, by: number): Swing => ({
  mean,
  factor: factor.map((row) => row.map((x) => by * x)),
});

const pointOf = ({ mean, factor }: Swing, numbers: NumberSource): Float64Array => {
  const normals = Array.from(mean, () => numbers.normal());
  return mean.map((middle, i) => normals.reduce((sum, z, k) => sum + factor[i]![k]! * z, middle));
};

/** The normal law of the pooled draws. */
function fittedSwing(points: readonly Float64Array[], dimension: number): Swing {
  const mean = new Float64Array(dimension);
  for (const point of points) for (let i = 0; i < dimension; i++) mean[i]! += point[i]! / points.length;
  const covariance = Array.from({ length: dimension }, (_, i) => {
    const row = new Float64Array(dimension);
    row[i] = 1e-10;
    return row;
  });
  for (const point of points) {
    for (let i = 0; i < dimension; i++) {
      for (let j = 0; j <= i; j++) {
        covariance[i]![j]! += ((point[i]! - mean[i]!) * (point[j]! - mean[j]!)) / (points.length - 1);
      }
    }
  }
  return { mean, factor: choleskyFactor(covariance) };
}

/** The best of some draws of the prior. */
function bestStart(logLikelihood: LogLikelihood, dimension: number, starts: number, numbers: NumberSource) {
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
 * law: first the one with the curvature of the posterior at its mode, then the one of a pilot's draws. Evidence much
 * sharper than the prior then costs no more than weak evidence. The law only steers proposals; what is drawn from is the
 * posterior itself. Four chains from starts that lie apart, for the diagnostics. The same seed gives the same draws.
 * @throws RangeError when no start has a finite likelihood
 */
export function samplePosterior(
  logLikelihood: LogLikelihood,
  dimension: number,
  options: PosteriorOptions,
): PosteriorDraws {
  const { seed, chains: count = 4, draws = 1000, pilot = 300, starts = 256 } = options;
  const scratch = new Float64Array(dimension);
  const numbers = numberSource(seed, 'posterior/start');
  let asked = starts;
  const start = bestStart(logLikelihood, dimension, starts, numbers);
  const mode = normalAtMode(logLikelihood, start, (times) => {
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
  const points: Float64Array[] = [];
  found.forEach((state, c) => {
    for (let step = 0; step < pilot; step++) {
      asked += ellipticalSliceStep(logLikelihood, swing, state, sources[c]!);
      if (3 * step >= pilot) points.push(state.point);
    }
  });
  if (points.length >= ENOUGH * dimension) {
    swing = scaled(fittedSwing(points, dimension), WIDER);
    for (const state of found) state.level = levelOf(state.point);
  }
  const chains = found.map((state, c) => {
    const kept = new Float64Array(draws * dimension);
    for (let step = 0; step < draws; step++) {
      asked += ellipticalSliceStep(logLikelihood, swing, state, sources[c]!);
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
