import type { CaseSetup, Direction } from '@tubgap/simulation';
import { numberSource } from '@tubgap/statistics';
import { type CarSpace, FEWEST_RUNS, openCarSpace } from './car-space.ts';

/** The space of everything that is fixed for a car, whatever the evidence speaks of. */
export const wholeCarSpace = (setup: CaseSetup, seed: number): CarSpace =>
  openCarSpace(setup, seed, () => true, [], FEWEST_RUNS);

/** Whether a direction belongs to the tub as it was built. */
export const ofTheBuild = ({ targets }: Direction): boolean => targets[0]?.input.group === 'builder';

/**
 * Cars of a smaller space as whole cars: what the smaller one does not speak of is drawn from the priors, the same for
 * every space, so that differences are what was learned and not the draws. So is what belongs to the tub as it was built
 * and not to the car: one that is built anew has errors of its own.
 * @param count  whole cars; points are taken in turn
 * @param isAnew  what is drawn from the priors whatever the points say
 */
export function wholeCars(
  whole: CarSpace,
  from: CarSpace,
  points: readonly Float64Array[],
  seed: number,
  count: number,
  isAnew: (direction: Direction) => boolean = ofTheBuild,
): Float64Array[] {
  const own = new Map(from.directions.map(({ stream }, d) => [stream, d]));
  const places = whole.directions.map((direction) =>
    isAnew(direction) ? undefined : own.get(direction.stream),
  );
  const { normal } = numberSource(seed, 'learn/whole');
  return Array.from({ length: count }, (_, n) => {
    const point = points[Math.floor((n * points.length) / count)]!;
    return Float64Array.from(places, (place) => {
      const drawn = normal();
      return place === undefined ? drawn : point[place]!;
    });
  });
}
