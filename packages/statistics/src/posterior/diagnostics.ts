import { normalQuantileInside } from '../normal.ts';
import { sampleQuantile } from '../sample-quantile.ts';

/** How well chains agree and how many independent draws they are worth. */
export interface ChainDiagnostics {
  /** Rank-normalised split R-hat, the larger of the plain and the folded one; 1 is agreement. */
  rHat: number;
  /** Effective sample size of the middle, and of the 5 % and 95 % quantiles, whichever is less. */
  bulk: number;
  tail: number;
}

const mean = (x: Float64Array): number => x.reduce((sum, value) => sum + value, 0) / x.length;

/** Each chain cut in two halves; of an odd length the middle draw goes. */
function halves(chains: readonly Float64Array[]): Float64Array[] {
  return chains.flatMap((chain) => {
    const half = Math.floor(chain.length / 2);
    return [chain.slice(0, half), chain.slice(chain.length - half)];
  });
}

/** Normal scores of the pooled ranks, ties at their mean rank. */
function rankNormal(chains: readonly Float64Array[]): Float64Array[] {
  const pooled = chains.flatMap((chain, c) => Array.from(chain, (value, i) => ({ value, c, i })));
  pooled.sort((a, b) => a.value - b.value);
  const out = chains.map((chain) => new Float64Array(chain.length));
  for (let from = 0; from < pooled.length; ) {
    let end = from + 1;
    while (end < pooled.length && pooled[end]!.value === pooled[from]!.value) end++;
    const rank = 0.5 * (from + 1 + end);
    const score = normalQuantileInside((rank - 3 / 8) / (pooled.length + 1 / 4));
    for (; from < end; from++) out[pooled[from]!.c]![pooled[from]!.i] = score;
  }
  return out;
}

function variance(x: Float64Array): number {
  const middle = mean(x);
  return x.reduce((sum, value) => sum + (value - middle) ** 2, 0) / (x.length - 1);
}

/** Within-chain variance, and the pooled estimate of the whole. */
function variances(chains: readonly Float64Array[]): { within: number; whole: number } {
  const n = chains[0]!.length;
  const within = mean(Float64Array.from(chains, variance));
  const between = chains.length > 1 ? variance(Float64Array.from(chains, mean)) : 0;
  return { within, whole: (within * (n - 1)) / n + between };
}

function plainRHat(chains: readonly Float64Array[]): number {
  const { within, whole } = variances(chains);
  return within > 0 ? Math.sqrt(whole / within) : 1;
}

/** Effective sample size by Geyer's initial monotone sequence over all chains. */
function effectiveSize(chains: readonly Float64Array[]): number {
  const n = chains[0]!.length;
  const all = n * chains.length;
  const { within, whole } = variances(chains);
  if (!(within > 0)) return all;
  const centred = chains.map((chain) => {
    const middle = mean(chain);
    return chain.map((value) => value - middle);
  });
  const autocovariance = (lag: number): number => {
    let sum = 0;
    for (const chain of centred) for (let i = 0; i + lag < n; i++) sum += chain[i]! * chain[i + lag]!;
    return sum / (n * chains.length);
  };
  const correlation = (lag: number): number => 1 - (within - autocovariance(lag)) / whole;
  // Pairs of neighbouring lags as long as they are positive; the last, which ended it, is left out.
  let even = 1;
  let odd = correlation(1);
  const pairs = [even + odd];
  let lag = 2;
  for (; lag < n - 2 && even + odd > 0; lag += 2) {
    even = correlation(lag);
    odd = correlation(lag + 1);
    pairs.push(even + odd);
  }
  let sum = 0;
  let least = Number.POSITIVE_INFINITY;
  for (const pair of pairs.slice(0, Math.max(1, pairs.length - 1))) {
    least = Math.min(least, pair);
    sum += least;
  }
  // Its even term is kept when it is positive: that lessens the bias of antithetic chains.
  const tau = -1 + 2 * sum + (pairs.length > 1 ? Math.max(0, even) : 0);
  return all / Math.max(tau, 1 / Math.log10(all));
}

/**
 * R-hat and effective sample sizes of one number over chains of equal length.
 * Source: A. Vehtari, A. Gelman, D. Simpson, B. Carpenter, P.-C. Bürkner (2021), Rank-normalization, folding, and
 * localization, Bayesian Analysis 16:667.
 * @param chains  at least 4 draws each
 */
export function chainDiagnostics(chains: readonly Float64Array[]): ChainDiagnostics {
  const split = halves(chains);
  const pooled = Float64Array.from(split.flatMap((chain) => Array.from(chain))).sort();
  const middle = sampleQuantile(pooled, 0.5);
  const folded = split.map((chain) => chain.map((value) => Math.abs(value - middle)));
  const scores = rankNormal(split);
  const quantileSize = (share: number): number => {
    const limit = sampleQuantile(pooled, share);
    return effectiveSize(split.map((chain) => chain.map((value) => (value <= limit ? 1 : 0))));
  };
  return {
    rHat: Math.max(plainRHat(scores), plainRHat(rankNormal(folded))),
    bulk: effectiveSize(scores),
    tail: Math.min(quantileSize(0.05), quantileSize(0.95)),
  };
}
