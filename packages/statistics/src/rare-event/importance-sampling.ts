import { studentQuantile } from '../distributions/student-t.ts';
import { type CountedMargin, type Estimate, relativeInterval } from './estimate.ts';
import { doubtOf, type FailureRegions } from './failure-regions.ts';
import type { Mixture } from './mixture.ts';
import { weightOf } from './mixture.ts';
import { normalSource } from './normal-source.ts';

const BATCH = 500;

/** Draws of a batch that go to each law, the origin's last; the mixture is rounded to them, so its weights stay exact. */
function shareOut(mixture: Mixture): { counts: number[]; rounded: Mixture } {
  const counts = Array.from(mixture.shares, (share) => Math.max(2, Math.round(share * BATCH)));
  const given = counts.reduce((sum, count) => sum + count, 0);
  const total = given + Math.max(2, BATCH - given);
  const rounded = {
    ...mixture,
    shares: Float64Array.from(counts, (count) => count / total),
    origin: 1 - given / total,
  };
  return { counts: [...counts, total - given], rounded };
}

/** Sums of the weights of failing draws, by the law that they were drawn from. */
interface Tally {
  readonly draws: Float64Array;
  readonly sums: Float64Array;
  readonly squares: Float64Array;
  greatest: number;
}

function result(tally: Tally): { probability: number; cov: number; effectiveDraws: number } {
  let draws = 0;
  let sum = 0;
  let squares = 0;
  let variance = 0;
  tally.draws.forEach((n, law) => {
    draws += n;
    sum += tally.sums[law]!;
    squares += tally.squares[law]!;
    // Within a law the draws are independent; between laws their number is fixed.
    variance += (tally.squares[law]! - tally.sums[law]! ** 2 / n) * (n / (n - 1));
  });
  return {
    probability: sum / draws,
    cov: sum === 0 ? Infinity : Math.sqrt(variance) / sum,
    effectiveDraws: sum === 0 ? 0 : (sum * sum) / squares,
  };
}

export interface ImportanceOptions {
  readonly seed: number | string;
  /** CoV to reach. */
  readonly cov: number;
  /** Draws at most. */
  readonly mostDraws: number;
}

/**
 * Failure probability by draws from a mixture about the failure regions, each failing draw with the weight of its
 * density there over the mixture's. Unbiased whatever the centres are; the variance tells how well they were chosen.
 * A first thousand draws show how many are needed, the rest follow in one go.
 * Not trusted when a few draws carry the sum, or when failing points are left far from all centres: then a region
 * has no centre, or is broader than its centres reach.
 */
export function importanceSampling(
  counted: CountedMargin,
  found: FailureRegions,
  options: ImportanceOptions,
): Estimate {
  const d = counted.dimension;
  const { counts, rounded } = shareOut(found.mixture);
  const batch = counts.reduce((sum, count) => sum + count, 0);
  const normals = normalSource(options.seed, 'importance');
  const u = new Float64Array(batch * d);
  const margins = new Float64Array(batch);
  const laws = counts.length;
  const tally: Tally = {
    draws: new Float64Array(laws),
    sums: new Float64Array(laws),
    squares: new Float64Array(laws),
    greatest: 0,
  };

  const drawBatch = (): void => {
    normals(u, batch * d);
    let row = 0;
    rounded.centres.forEach((centre, law) => {
      for (let i = 0; i < counts[law]!; i++, row++) {
        for (let k = 0; k < d; k++) u[row * d + k] = u[row * d + k]! + centre[k]!;
      }
    });
    counted.evaluate(u, batch, margins);
    row = 0;
    counts.forEach((count, law) => {
      tally.draws[law] = tally.draws[law]! + count;
      for (let i = 0; i < count; i++, row++) {
        if (!(margins[row]! < 0)) continue;
        const weight = weightOf(rounded, u, row);
        tally.sums[law] = tally.sums[law]! + weight;
        tally.squares[law] = tally.squares[law]! + weight * weight;
        tally.greatest = Math.max(tally.greatest, weight);
      }
    });
  };

  drawBatch();
  drawBatch();
  const first = result(tally);
  const needed = Number.isFinite(first.cov) ? 2.2 * (first.cov / options.cov) ** 2 : Infinity;
  const batches = Math.min(Math.ceil(needed), Math.floor(options.mostDraws / batch));
  for (let done = 2; done < batches; done++) drawBatch();

  const { probability, cov, effectiveDraws } = result(tally);
  const deviate = studentQuantile(0.975, Math.max(2, effectiveDraws - 1));
  const common = {
    probability,
    cov,
    ...relativeInterval(probability, Number.isFinite(cov) ? cov : 0, deviate),
    calls: counted.calls(),
    effectiveDraws,
    regions: found.regions,
    method: 'importance sampling',
  } as const;
  const total = tally.sums.reduce((sum, value) => sum + value, 0);
  if (effectiveDraws < 50) {
    const reason = `the failing draws are worth only ${Math.floor(effectiveDraws)} of equal weight; 50 are needed.`;
    return { ...common, trusted: false, reason };
  }
  const doubt = doubtOf(found);
  if (doubt !== undefined) return { ...common, trusted: false, reason: doubt };
  if (tally.greatest > 0.1 * total) {
    const share = Math.round((100 * tally.greatest) / total);
    return {
      ...common,
      trusted: false,
      reason: `one draw carries ${share} % of the estimate; a region has no centre.`,
    };
  }
  return { ...common, trusted: true };
}
