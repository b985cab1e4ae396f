import type { LatticePlace } from './lattice-search.ts';

/**
 * What holds the best value of an input: an end of its range, within which it would go on; nothing, for it lies inside; that
 * cannot be told, for no value that was looked at is told apart from the best; or there is one value alone.
 */
export type HeldBy = 'low end' | 'high end' | 'inside' | 'not told' | 'single value';

/** Of one input: what holds it, and the values, by index, between which some place is not told apart from the best. */
export interface HeldInput {
  heldBy: HeldBy;
  from: number;
  to: number;
}

/**
 * What holds the best place along each axis of a lattice, and between which values it cannot be told from others.
 * @param alike  places that are not told apart from the best, itself left out or not
 */
export const heldInputs = (
  sizes: readonly number[],
  best: LatticePlace,
  alike: readonly LatticePlace[],
): HeldInput[] =>
  sizes.map((size, axis) => {
    const values = [best, ...alike].map((place) => place[axis]!);
    const [from, to] = [Math.min(...values), Math.max(...values)];
    const heldBy = (): HeldBy => {
      if (size === 1) return 'single value';
      if (from === 0 && to === size - 1) return 'not told';
      if (best[axis] === 0) return 'low end';
      return best[axis] === size - 1 ? 'high end' : 'inside';
    };
    return { heldBy: heldBy(), from, to };
  });
