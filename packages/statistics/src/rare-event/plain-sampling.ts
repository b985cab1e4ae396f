import { clopperPearson } from '../interval.ts';
import { BLOCK } from '../stream.ts';
import { type CountedMargin, countedMargin, type Estimate, type Margin } from './estimate.ts';
import { normalSource } from './normal-source.ts';

/** Coefficient of variation of a share of hits among n draws; Infinity without a hit. */
function plainCov(hits: number, n: number): number {
  return hits === 0 ? Infinity : Math.sqrt((1 - hits / n) / hits);
}

/** A count of failing points that goes on where it stopped. */
export interface PlainCount {
  readonly hits: number;
  readonly draws: number;
  readonly more: (draws: number) => void;
}

/** Counts failing points along the plain stream of a seed. */
export function plainCount(counted: CountedMargin, seed: number | string): PlainCount {
  const d = counted.dimension;
  const normals = normalSource(seed, 'plain');
  const u = new Float64Array(BLOCK * d);
  const out = new Float64Array(BLOCK);
  let hits = 0;
  let draws = 0;
  return {
    get hits() {
      return hits;
    },
    get draws() {
      return draws;
    },
    more: (wanted) => {
      for (let left = wanted; left > 0; left -= BLOCK) {
        const n = Math.min(BLOCK, left);
        normals(u, n * d);
        counted.evaluate(u, n, out);
        for (let i = 0; i < n; i++) if (out[i]! < 0) hits += 1;
        draws += n;
      }
    },
  };
}

/** The plain estimate of `hits` failures among `draws`, with the exact interval of Clopper and Pearson. */
export function plainEstimate(hits: number, draws: number, calls: number): Estimate {
  const interval = clopperPearson(hits, draws);
  const estimate = {
    probability: hits / draws,
    cov: plainCov(hits, draws),
    low: interval.low,
    high: interval.high,
    calls,
    effectiveDraws: hits,
    regions: 0,
    method: 'plain sampling',
  } as const;
  if (hits > 0) return { ...estimate, trusted: true };
  const reason = `none of ${draws} draws failed; only the upper end of the interval means something.`;
  return { ...estimate, trusted: false, reason };
}

/**
 * Share of failing points among plain draws: unbiased and without assumptions, at (1 − p)/(p cov²) calls. Always
 * trusted, its interval being exact, except when nothing failed.
 * @param margin     see Margin
 * @param dimension  of the standard normal space, at least 1
 * @param options.seed   0 is a seed
 * @param options.draws  whole, at least 1; else RangeError
 */
export function plainSampling(
  margin: Margin,
  dimension: number,
  options: { readonly seed: number | string; readonly draws: number },
): Estimate {
  const counted = countedMargin(margin, dimension);
  const count = plainCount(counted, options.seed);
  count.more(options.draws);
  return plainEstimate(count.hits, count.draws, counted.calls());
}
