import { nodeOf, numberSource, type PooledDraws } from '@tubgap/statistics';
import type { BookBelief } from './sample-book.ts';

/** What a kind of coordinate is for a car of some groups, draw by draw. */
export interface GroupDraws {
  /** Middle of such cars and the standard deviation by which they differ, in the first prior's own. */
  at: (chain: PooledDraws, draw: number) => { middle: number; spread: number };
}

const ALONE: GroupDraws = { at: () => ({ middle: 0, spread: 1 }) };

/**
 * What the book believes of a kind of coordinate for a car that lies in some groups, the innermost that the book knows
 * foremost. A kind that does not hang together in this book is as the first prior has it.
 */
export function groupDraws(belief: BookBelief, kind: string, groups: readonly string[]): GroupDraws {
  const k = belief.kinds.findIndex(({ name }) => name === kind);
  if (k < 0) return ALONE;
  const nest = belief.model.nests[k]!;
  const { block, variances } = belief.model.kinds[k]!;
  const { size } = belief.model.spreads[block]!;
  let depth = groups.length;
  while (depth > 0 && nodeOf(nest, groups.slice(0, depth)) < 0) depth--;
  const node = depth === 0 ? -1 : nodeOf(nest, groups.slice(0, depth));
  return {
    at: ({ spreads, effects }, draw) => {
      const own = variances(spreads[block]!.subarray(draw * size, (draw + 1) * size));
      let rest = 0;
      for (let l = depth; l < own.length; l++) rest += own[l]!;
      const middle = node < 0 ? 0 : effects[k]![draw * nest.nodes.length + node]!;
      return { middle, spread: Math.sqrt(rest) };
    },
  };
}

/** Standard normal numbers of a name, some a draw, the same for every chain and draw. */
export function sameNumbers(seed: number, name: string, count: number): Float64Array {
  const { normal } = numberSource(seed, name);
  return Float64Array.from({ length: count }, () => normal());
}
