import type { NumberSource } from '../number-source.ts';

/**
 * Numbers that hang together by nested groups: each is the sum of an effect of every group that it lies in and of one of
 * its own, all normal about nought. This is the order of the groups only; variances and values come later.
 */
export interface Nest {
  /** Names of a node's groups from the outermost one on, joined; nodes stand in the order of their level, then of these. */
  nodes: readonly string[];
  parent: readonly number[];
  level: readonly number[];
  /** Innermost group of each leaf; −1 where it lies in none. */
  innermost: readonly number[];
}

/** What a new leaf would be, everything else given. */
export interface Foretold {
  mean: number;
  variance: number;
}

const SEPARATOR = '\u0000';

/** @param paths  of each leaf its groups, outermost first; a leaf may leave out inner ones */
export function openNest(paths: readonly (readonly string[])[]): Nest {
  const found = new Map<string, { level: number; within: string | undefined }>();
  const keyOf = (path: readonly string[]): string => path.join(SEPARATOR);
  for (const path of paths) {
    path.forEach((_, level) => {
      const within = level === 0 ? undefined : keyOf(path.slice(0, level));
      found.set(keyOf(path.slice(0, level + 1)), { level, within });
    });
  }
  const order = [...found].sort(([a, { level: i }], [b, { level: k }]) => i - k || (a < b ? -1 : 1));
  const places = new Map(order.map(([name], n) => [name, n]));
  return {
    nodes: order.map(([name]) => name),
    parent: order.map(([, { within }]) => (within === undefined ? -1 : places.get(within)!)),
    level: order.map(([, { level }]) => level),
    innermost: paths.map((path) => (path.length === 0 ? -1 : places.get(keyOf(path))!)),
  };
}

/** The node of some groups, or −1. */
export const nodeOf = (nest: Nest, path: readonly string[]): number =>
  nest.nodes.indexOf(path.join(SEPARATOR));

/** What a leaf differs by that is not of its groups: its own variance with those of the levels that it leaves out. */
export function ownVariance({ innermost, level }: Nest, leaf: number, variances: ArrayLike<number>): number {
  const node = innermost[leaf]!;
  let sum = 0;
  for (let l = node < 0 ? 0 : level[node]! + 1; l < variances.length; l++) sum += variances[l]!;
  return sum;
}

/** A nest with its variances and the leaves that are known: what these say of each other. */
export interface NestState {
  /** Variances of the levels, outermost first, then of a leaf's own effect. Knows no leaf afterwards. */
  reset: (variances: ArrayLike<number>) => void;
  /** A leaf is known from now on, or no longer. */
  set: (leaf: number, value: number | undefined) => void;
  /** A leaf that is not known, from those that are. */
  foretold: (leaf: number) => Foretold;
  /** Log density of all known leaves together. */
  logDensity: () => number;
  /** Draws the sum of effects down to each node, given the known leaves. */
  effects: (numbers: NumberSource) => Float64Array;
}

/**
 * Every node holds what its known leaves say of its own sum of effects m, exp(−½ precision m² + pull m), the effects
 * between already integrated out, so that a change of one leaf touches its own groups alone. Derived by completing the
 * square.
 */
export function nestState(nest: Nest): NestState {
  const { parent, level, innermost } = nest;
  const count = parent.length;
  const precision = new Float64Array(count);
  const pull = new Float64Array(count);
  const values = new Map<number, number>();
  let variances: ArrayLike<number> = [];
  const shrink = (node: number): number => 1 / (1 + variances[level[node]!]! * precision[node]!);
  function add(leaf: number, value: number, sign: number): void {
    const weight = sign / ownVariance(nest, leaf, variances);
    let byPrecision = weight;
    let byPull = weight * value;
    for (let node = innermost[leaf]!; node >= 0; node = parent[node]!) {
      const before = shrink(node);
      const [p, h] = [precision[node]! * before, pull[node]! * before];
      precision[node] = Math.max(0, precision[node]! + byPrecision);
      pull[node]! += byPull;
      const after = shrink(node);
      byPrecision = precision[node]! * after - p;
      byPull = pull[node]! * after - h;
    }
  }
  return {
    reset: (to) => {
      variances = to;
      precision.fill(0);
      pull.fill(0);
      values.clear();
    },
    set: (leaf, value) => {
      const known = values.get(leaf);
      if (known !== undefined) add(leaf, known, -1);
      values.delete(leaf);
      if (value === undefined) return;
      add(leaf, value, 1);
      values.set(leaf, value);
    },
    foretold: (leaf) => {
      const path: number[] = [];
      for (let node = innermost[leaf]!; node >= 0; node = parent[node]!) path.unshift(node);
      let mean = 0;
      let variance = 0;
      path.forEach((node, k) => {
        variance += variances[level[node]!]!;
        // What the group further in says is said there.
        const inner = path[k + 1];
        const share = inner === undefined ? 0 : shrink(inner);
        const p = Math.max(0, precision[node]! - (inner === undefined ? 0 : precision[inner]! * share));
        const h = pull[node]! - (inner === undefined ? 0 : pull[inner]! * share);
        const by = 1 / (1 + variance * p);
        mean = (mean + variance * h) * by;
        variance *= by;
      });
      return { mean, variance: variance + ownVariance(nest, leaf, variances) };
    },
    logDensity: () => {
      let sum = 0;
      for (const [leaf, value] of values) {
        const own = ownVariance(nest, leaf, variances);
        sum -= 0.5 * (Math.log(2 * Math.PI * own) + (value * value) / own);
      }
      for (let node = 0; node < count; node++) {
        const v = variances[level[node]!]!;
        const by = shrink(node);
        sum += 0.5 * (Math.log(by) + v * pull[node]! * pull[node]! * by);
      }
      return sum;
    },
    effects: ({ normal }) => {
      const sums = new Float64Array(count);
      for (let node = 0; node < count; node++) {
        const v = variances[level[node]!]!;
        const by = shrink(node);
        const outer = parent[node]! < 0 ? 0 : sums[parent[node]!]!;
        sums[node] = (outer + v * pull[node]!) * by + Math.sqrt(v * by) * normal();
      }
      return sums;
    },
  };
}
