import { designPoint } from './design-point.ts';
import type { CountedMargin } from './estimate.ts';
import { axisFailures, drawnIn, mirroredFailures, wideFailures } from './failing-points.ts';
import { evenMixture, fittedMixture, type Mixture, weightOf } from './mixture.ts';

/** Centres that stand for the failure regions found. */
export interface FailureRegions {
  readonly mixture: Mixture;
  /** Design points among the centres. */
  readonly regions: number;
  /** Share of the failing points of the search that a centre stands for, 0 to 1. */
  readonly explained: number;
}

export interface RegionSearch {
  /** Failing points row by row, as a subset run leaves them. */
  readonly failing: Float64Array;
  readonly failingCount: number;
  /** Rough failure probability, above 0: what a weight is measured against. */
  readonly probability: number;
  readonly seed: number | string;
}

const MOST_SEARCHES = 16;
const MOST_MEANS = 4;
/**
 * A failing point whose weight exceeds this many times the probability is in a region that no centre stands for. On
 * the limit state of a plane at index β the factor is β√2π (13 at β = 5); the rest allows for a rough probability.
 */
const UNEXPLAINED = 60;
/** Centres nearer than this to each other, or to the origin, are no gain. */
const NEAR = 0.5;
/** Dimensions in which single failing points can cover a broad region. */
const FEW = 3;

/** Mean of the failing points on the side of `start`, noise cut off: a tenth of the points count as independent. */
function meanOf(points: readonly Float64Array[], start: Float64Array): Float64Array {
  const side = points.filter((point) => point.reduce((sum, x, k) => sum + x * start[k]!, 0) > 0);
  const mean = start.map((_, k) => side.reduce((sum, point) => sum + point[k]!, 0) / side.length);
  const noise = 3 / Math.sqrt(Math.max(1, side.length / 10));
  return mean.map((x) => (Math.abs(x) < noise ? 0 : x));
}

/** Whether a point lies beyond a centre as seen from the origin, or nearly so: then the centre stands for it. */
function isBeyond(centre: Float64Array, point: Float64Array): boolean {
  return centre.reduce((sum, x, k) => sum + x * (point[k]! - x), 0) >= -1;
}

const apart = (a: Float64Array, b: Float64Array): number => Math.hypot(...a.map((x, k) => x - b[k]!));

/**
 * Looks for all failure regions: from the failing point that the centres so far explain worst, a search for its
 * design point, until every failing point is explained or 16 searches are done. Where there is no design point of its
 * own, because the region is broad or kinked, failing points (few dimensions) or their mean (many) become centres.
 * That a region exists has to be seen in a failing point: those given, on the axes, in wide draws, in mirror images.
 * Without a centre (failure likelier than 1 in 60) the mixture is the standard normal law itself.
 */
export function failureRegions(counted: CountedMargin, search: RegionSearch): FailureRegions {
  const d = counted.dimension;
  const { failing, failingCount, probability } = search;
  const origin = new Float64Array(1);
  counted.evaluate(new Float64Array(d), 1, origin);
  const scale = Math.max(Math.abs(origin[0]!), 1e-12);
  const least = 0.01 * probability;
  const limit = UNEXPLAINED * probability;
  const given = Array.from({ length: failingCount }, (_, i) => failing.subarray(i * d, i * d + d));
  const points = [...axisFailures(counted, least), ...wideFailures(counted, least, search.seed), ...given];
  const spent = new Set<Float64Array>();
  const centres: Float64Array[] = [];
  let regions = 0;
  let means = 0;
  for (let searches = 0; ; searches++) {
    const mixture = fittedMixture(evenMixture(d, centres), failing, failingCount);
    const open = points
      .map((point) => ({ point, weight: weightOf(mixture, point, 0), size: Math.hypot(...point) }))
      .filter(({ point, weight }) => weight > limit && !centres.some((centre) => isBeyond(centre, point)))
      .sort((a, b) => b.weight - a.weight || a.size - b.size);
    const worst = open.find(({ point }) => !spent.has(point));
    if (worst === undefined || searches === MOST_SEARCHES || means === MOST_MEANS) {
      const left = new Set(open.map(({ point }) => point));
      const explained =
        given.length === 0 ? 1 : given.filter((point) => !left.has(point)).length / given.length;
      return { mixture, regions, explained };
    }
    const found = designPoint(counted, worst.point, scale);
    const isNew = (centre: Float64Array): boolean =>
      Math.hypot(...centre) > NEAR && centres.every((other) => apart(other, centre) > NEAR);
    if (found.settled && isNew(found.point)) {
      centres.push(found.point);
      regions += 1;
      points.push(...mirroredFailures(counted, found.point));
      continue;
    }
    spent.add(worst.point);
    let stand: Float64Array;
    if (d <= FEW) {
      stand = found.index < worst.size && isNew(found.point) ? found.point : drawnIn(counted, worst.point);
    } else {
      means += 1;
      stand = meanOf(
        open.map(({ point }) => point),
        worst.point,
      );
    }
    if (isNew(stand)) centres.push(stand);
  }
}

/** Share of the failing points that centres have to stand for. */
const LEAST_EXPLAINED = 0.9;

/** Why estimates from these centres cannot be trusted, or undefined. */
export function doubtOf(found: FailureRegions): string | undefined {
  if (found.explained >= LEAST_EXPLAINED) return undefined;
  return `${Math.round(100 * (1 - found.explained))} % of the failing points lie far from all centres.`;
}
