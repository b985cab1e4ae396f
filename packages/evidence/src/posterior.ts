import type { CaseSetup } from '@tubgap/simulation';
import { type LogLikelihood, numberSource, type PosteriorDraws, samplePosterior } from '@tubgap/statistics';
import { type CarSpace, FEWEST_RUNS, openCarSpace } from './car-space.ts';
import type { Part } from './parts/part.ts';

/** How long the sampler works. */
export interface Effort {
  seed: number;
  /** Draws of each of the four chains that count. */
  draws: number;
  pilot: number;
  /** Common runs, see openCarSpace; FEWEST_RUNS when left out. */
  runCount?: number;
}

/** Cars that agree with some parts of the evidence, as points of their space. */
export interface Believed {
  space: CarSpace;
  parts: readonly Part[];
  posterior: PosteriorDraws;
  /** The same draws one after the other. */
  points: Float64Array[];
}

/** Chance of everything measured for a car, costly parts last and only where they can still matter. */
export function jointLikelihood(space: CarSpace, parts: readonly Part[]): LogLikelihood {
  const order = [...parts].sort((a, b) => Number(a.costly) - Number(b.costly));
  const whole = order.reduce((sum, part) => sum + part.most, 0);
  return (point, floor) => {
    const car = space.at(point);
    let sum = 0;
    let open = whole;
    for (const part of order) {
      if (sum + open < floor) return Number.NEGATIVE_INFINITY;
      sum += part.logLikelihood(car);
      open -= part.most;
    }
    return Number.isNaN(sum) ? Number.NEGATIVE_INFINITY : sum;
  };
}

/** Opens the space that some parts speak of. */
export const spaceOf = (
  setup: CaseSetup,
  parts: readonly Part[],
  seed: number,
  runCount = FEWEST_RUNS,
): CarSpace =>
  openCarSpace(
    setup,
    seed,
    (stream) => parts.some(({ streams }) => streams.has(stream)),
    [...new Set(parts.flatMap(({ nuisances }) => nuisances))],
    runCount,
  );

export function pointsOf({ chains, dimension, draws }: PosteriorDraws): Float64Array[] {
  return chains.flatMap((chain) =>
    Array.from({ length: draws }, (_, i) => chain.subarray(i * dimension, (i + 1) * dimension)),
  );
}

/** Cars that agree with the evidence. */
export function believe(
  setup: CaseSetup,
  parts: readonly Part[],
  { seed, draws, pilot, runCount }: Effort,
): Believed {
  const space = spaceOf(setup, parts, seed, runCount);
  const cheap = parts.filter(({ costly }) => !costly);
  const posterior = samplePosterior(jointLikelihood(space, parts), space.dimension, {
    seed: `learn ${seed}`,
    draws,
    pilot,
    guide: jointLikelihood(space, cheap),
  });
  return { space, parts, posterior, points: pointsOf(posterior) };
}

/** Cars as the priors have them, as points of a space. */
export function priorPoints(space: CarSpace, seed: number, count: number): Float64Array[] {
  const { normal } = numberSource(seed, 'learn/prior');
  return Array.from({ length: count }, () => Float64Array.from({ length: space.dimension }, () => normal()));
}

/** Points taken again by how well they agree with some parts, each as often as its weight asks: systematic resampling. */
export function pointsWeighed(
  space: CarSpace,
  parts: readonly Part[],
  points: readonly Float64Array[],
  seed: number,
): Float64Array[] {
  const likelihood = jointLikelihood(space, parts);
  const levels = points.map((point) => likelihood(point, Number.NEGATIVE_INFINITY));
  const top = Math.max(...levels);
  const weights = levels.map((level) => Math.exp(level - top));
  const step = weights.reduce((sum, w) => sum + w, 0) / points.length;
  let next = numberSource(seed, 'learn/weighed').uniform() * step;
  let sum = 0;
  return points.flatMap((point, i): Float64Array[] => {
    sum += weights[i]!;
    const taken: Float64Array[] = [];
    for (; next < sum; next += step) taken.push(point);
    return taken;
  });
}
