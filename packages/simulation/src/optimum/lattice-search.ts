import { parabolaOffset } from '../study/places.ts';

/** A place of a lattice: which value it has along each axis, from 0. */
export type LatticePlace = readonly number[];

/** What is sought: the place of the least value. */
export interface LatticeOrder<T> {
  /** Negative where the first is the lesser. */
  compare: (one: T, other: T) => number;
  /** For parabolas; Infinity where a value follows none. */
  size: (value: T) => number;
}

/** A search for the least value on a lattice. */
export interface LatticeSearch<T> {
  /** Places to look at next, none twice; none when it has ended. */
  wanted: () => LatticePlace[];
  told: (place: LatticePlace, value: T) => void;
  /** The least that was told; of equal ones the first. */
  best: () => { place: LatticePlace; value: T };
}

/** Axes at most: with more of them a grid that a valley would not slip through has too many places. */
export const MOST_AXES = 4;
/** Places along each axis of the grid that a search begins with, by the number of axes. */
const COARSE = [9, 5, 4, 3];
/** Places of that grid, none of whose neighbours is lower, that a search goes on from at most. */
const MOST_STARTS = 3;

const keyOf = (place: LatticePlace): string => place.join();

/** The coordinates of a grid along an axis of so many values, both ends among them. */
const coarseAlong = (size: number, count: number): number[] => [
  ...new Set(Array.from({ length: count }, (_, k) => Math.round((k * (size - 1)) / Math.max(1, count - 1)))),
];

/** The values along each axis of the grid that a search begins with. */
const coarseAxes = (sizes: readonly number[]): number[][] =>
  sizes.map((size) => coarseAlong(size, COARSE[sizes.length - 1] ?? 1));

/** The places of that grid. */
export const coarsePlaces = (sizes: readonly number[]): LatticePlace[] =>
  coarseAxes(sizes).reduce<number[][]>(
    (places, along) => places.flatMap((place) => along.map((one) => [...place, one])),
    [[]],
  );

/** A walk downhill from one start: where it is, and how far it looks along each axis. */
interface Walk {
  at: LatticePlace;
  steps: number[];
  isOver: boolean;
}

/**
 * Searches a lattice for its least value: a coarse grid over all of it, and from the lowest of its places that lie below all
 * their neighbours a pattern search, whose steps are halved down to one place of the lattice. The step that axis by axis a
 * parabola foretells is looked at as well, and at the last across two axes. It ends at places none of whose neighbours is
 * lower: of a value that has one valley, and no crease that runs across more than two axes, at the least. A second valley
 * is found where a place of the coarse grid lies in it; none that is narrower than that grid can be ruled out.
 * Source of the pattern search: R. Hooke and T. A. Jeeves (1961), J. ACM 8:212 (from memory).
 * @param sizes  values along each axis, at least one
 * @throws RangeError for more than MOST_AXES axes
 */
export function openLatticeSearch<T>(sizes: readonly number[], order: LatticeOrder<T>): LatticeSearch<T> {
  const { compare, size } = order;
  if (sizes.length > MOST_AXES)
    throw new RangeError(`${sizes.length} axes; a lattice has ${MOST_AXES} at most`);
  const known = new Map<string, { place: LatticePlace; value: T }>();
  const valueAt = (place: LatticePlace): T | undefined => known.get(keyOf(place))?.value;
  const isLower = (place: LatticePlace, than: LatticePlace): boolean =>
    compare(valueAt(place)!, valueAt(than)!) < 0;

  const axes = coarseAxes(sizes);
  const coarse = coarsePlaces(sizes);

  const moved = (place: LatticePlace, axis: number, by: number): LatticePlace =>
    place.map((one, a) => (a === axis ? Math.max(0, Math.min(sizes[a]! - 1, one + by)) : one));

  const startsOf = (): LatticePlace[] =>
    coarse
      .filter((place) =>
        axes.every((along, axis) => {
          const k = along.indexOf(place[axis]!);
          return [along[k - 1], along[k + 1]].every(
            (beside) => beside === undefined || !isLower(moved(place, axis, beside - place[axis]!), place),
          );
        }),
      )
      .toSorted((one, other) => compare(valueAt(one)!, valueAt(other)!))
      .slice(0, MOST_STARTS);

  const around = ({ at, steps }: Walk): LatticePlace[] =>
    steps.flatMap((step, axis) => [moved(at, axis, -step), moved(at, axis, step)]);

  /** Across two axes at once: what runs down between them. */
  const across = ({ at, steps }: Walk): LatticePlace[] =>
    steps.some((step) => step > 1)
      ? []
      : steps.flatMap((_, one) =>
          steps.flatMap((__, other) =>
            other <= one
              ? []
              : [-1, 1].flatMap((by) => [-1, 1].map((also) => moved(moved(at, one, by), other, also))),
          ),
        );

  /** Where parabolas along every axis have their lowest points. */
  const foretold = ({ at, steps }: Walk): LatticePlace =>
    at.map((one, axis) => {
      const step = steps[axis]!;
      const [before, after] = [moved(at, axis, -step), moved(at, axis, step)];
      if (after[axis]! - before[axis]! !== 2 * step) return one;
      const [low, here, high] = [before, at, after].map((place) => size(valueAt(place)!));
      return one + Math.round(parabolaOffset(low!, here!, high!, step));
    });

  let walks: Walk[] | undefined;
  const open = (places: readonly LatticePlace[]): LatticePlace[] =>
    places.filter((place) => !known.has(keyOf(place)));

  /** Goes on with a walk as far as what is known leads, and gives what it has to know next. */
  const next = (walk: Walk): LatticePlace[] => {
    while (!walk.isOver) {
      const beside = open([...around(walk), ...across(walk)]);
      if (beside.length > 0) return beside;
      // Only now are the values known that it is foretold by.
      const ahead = open([foretold(walk)]);
      if (ahead.length > 0) return ahead;
      const lowest = [...around(walk), foretold(walk), ...across(walk)].toSorted((one, other) =>
        compare(valueAt(one)!, valueAt(other)!),
      )[0]!;
      if (isLower(lowest, walk.at)) walk.at = lowest;
      else if (walk.steps.every((step) => step === 1)) walk.isOver = true;
      else walk.steps = walk.steps.map((step) => Math.ceil(step / 2));
    }
    return [];
  };

  return {
    wanted() {
      const first = open(coarse);
      if (first.length > 0) return first;
      walks ??= startsOf().map((at) => ({
        at,
        steps: axes.map((along) => Math.max(1, Math.ceil((along[1] ?? 1) / 2))),
        isOver: false,
      }));
      const asked = new Map(walks.flatMap(next).map((place) => [keyOf(place), place]));
      return [...asked.values()];
    },
    told: (place, value) => void known.set(keyOf(place), { place, value }),
    best: () =>
      [...known.values()].reduce((least, one) => (compare(one.value, least.value) < 0 ? one : least)),
  };
}
