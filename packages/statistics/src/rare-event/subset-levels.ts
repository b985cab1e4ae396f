import type { CountedMargin } from './estimate.ts';
import type { Source } from './normal-source.ts';

/** Each level keeps a tenth of its points, and each of these grows a chain of ten. */
export const CHAIN = 10;
/** Acceptance rate at which the chains forget fastest (Papaioannou et al. 2015). */
const BEST_ACCEPTANCE = 0.44;

/** Points of one level, row by row, with their margins. */
export interface Level {
  readonly points: Float64Array;
  readonly margins: Float64Array;
}

/**
 * Squared CoV of one level's share, with the correlation along its chains: point i of step s of chain c is index
 * s·chains + c. Source: S. K. Au and J. L. Beck (2001), Prob. Eng. Mech. 16:263, eq. 20 and 29.
 */
export function levelVariance(inside: Uint8Array, share: number, chains: number): number {
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
export function climb(
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
