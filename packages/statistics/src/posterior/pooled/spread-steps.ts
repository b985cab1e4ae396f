import { type ChainState, ellipticalSliceStep } from '../elliptical-slice.ts';
import type { NumberSource } from '../number-source.ts';
import { unitSwing } from '../sample-posterior.ts';
import type { NestState } from './nested-normal.ts';
import type { OrderedModel } from './pooled-model.ts';
import type { UnitState } from './unit-step.ts';

/** Tells every nest its variances and the coordinates that belong to it. */
export function fillNests(
  model: OrderedModel,
  states: readonly NestState[],
  spreads: readonly Float64Array[],
  units: readonly UnitState[],
): void {
  model.kinds.forEach(({ block, variances }, k) => {
    states[k]!.reset(variances(spreads[block]!));
  });
  units.forEach((unit, u) => {
    setLeaves(model, states, u, unit, true);
  });
}

/** Makes a unit's coordinates known to the nests, or not. */
export function setLeaves(
  model: OrderedModel,
  states: readonly NestState[],
  u: number,
  unit: UnitState,
  known: boolean,
): void {
  const { coordinates } = model.units[u]!;
  coordinates.forEach(({ kind, clique }, i) => {
    if (kind === undefined || (clique !== undefined && unit.apart[clique])) return;
    states[kind]!.set(model.leaves[u]![i]!, known ? unit.point[i]! : undefined);
  });
}

/** Steps of one block with the coordinates held: they cost no likelihood. */
const STEPS = 3;

/** Moves a block's numbers with all coordinates held, by the density of the nests that hang on it. */
export function moveSpread(
  model: OrderedModel,
  states: readonly NestState[],
  spreads: Float64Array[],
  units: readonly UnitState[],
  block: number,
  numbers: NumberSource,
): void {
  const own = model.kinds.flatMap((kind, k) => (kind.block === block ? [k] : []));
  const values = own.map((k) =>
    units.flatMap((unit, u) =>
      model.units[u]!.coordinates.flatMap(({ kind, clique }, i) =>
        kind === k && !(clique !== undefined && unit.apart[clique])
          ? [[model.leaves[u]![i]!, unit.point[i]!] as const]
          : [],
      ),
    ),
  );
  const density = (numbersOfBlock: Float64Array): number => {
    let sum = 0;
    own.forEach((k, n) => {
      const state = states[k]!;
      state.reset(model.kinds[k]!.variances(numbersOfBlock));
      for (const [leaf, value] of values[n]!) state.set(leaf, value);
      sum += state.logDensity();
    });
    return Number.isFinite(sum) ? sum : Number.NEGATIVE_INFINITY;
  };
  const plain = unitSwing(spreads[block]!.length);
  const chain: ChainState = { point: spreads[block]!, level: density(spreads[block]!) };
  for (let step = 0; step < STEPS; step++) ellipticalSliceStep(density, plain, chain, numbers);
  spreads[block] = chain.point;
  density(chain.point);
}

/**
 * Moves the numbers of some blocks with the groups' effects held, in their own standard deviations, so that every
 * coordinate goes along: where the likelihoods say little this is as free as moving with the coordinates held is stiff.
 * Source: O. Papaspiliopoulos, G. O. Roberts, M. Sköld (2007), A general framework for the parametrization of
 * hierarchical models, Statistical Science 22:59; both in turn: Y. Yu and X.-L. Meng (2011), Journal of Computational
 * and Graphical Statistics 20:531. Both from memory.
 */
export function moveWithEffectsHeld(
  model: OrderedModel,
  states: readonly NestState[],
  spreads: Float64Array[],
  units: UnitState[],
  blocks: readonly number[],
  numbers: NumberSource,
): void {
  const kinds = model.kinds.flatMap(({ block }, k) => (blocks.includes(block) ? [k] : []));
  const held = kinds.map((k) => {
    const { block, variances } = model.kinds[k]!;
    const sums = states[k]!.effects(numbers);
    const now = variances(spreads[block]!);
    const { parent, level } = model.nests[k]!;
    return sums.map(
      (sum, node) => (sum - (parent[node]! < 0 ? 0 : sums[parent[node]!]!)) / Math.sqrt(now[level[node]!]!),
    );
  });
  const outer = held.map((effects) => new Float64Array(effects.length));
  const sumsAt = (
    block: (index: number) => Float64Array,
  ): { own: (leaf: number) => number; sums: Float64Array }[] =>
    kinds.map((k, n) => {
      const variances = model.kinds[k]!.variances(block(model.kinds[k]!.block));
      const { parent, level, innermost } = model.nests[k]!;
      const sums = outer[n]!;
      held[n]!.forEach((effect, node) => {
        const above = parent[node]! < 0 ? 0 : sums[parent[node]!]!;
        sums[node] = above + Math.sqrt(variances[level[node]!]!) * effect;
      });
      const own = (leaf: number): number => {
        const node = innermost[leaf]!;
        let sum = 0;
        for (let l = node < 0 ? 0 : level[node]! + 1; l < variances.length; l++) sum += variances[l]!;
        return Math.sqrt(sum);
      };
      return { own, sums };
    });
  const belongs = (u: number, i: number): number => {
    const { kind, clique } = model.units[u]!.coordinates[i]!;
    if (kind === undefined || (clique !== undefined && units[u]!.apart[clique])) return -1;
    return kinds.indexOf(kind);
  };
  const innermostSum = (n: number, leaf: number, sums: Float64Array): number => {
    const node = model.nests[kinds[n]!]!.innermost[leaf]!;
    return node < 0 ? 0 : sums[node]!;
  };
  const first = sumsAt((block) => spreads[block]!);
  const rests = units.map((unit, u) =>
    unit.point.map((value, i) => {
      const n = belongs(u, i);
      if (n < 0) return 0;
      const leaf = model.leaves[u]![i]!;
      return (value - innermostSum(n, leaf, first[n]!.sums)) / first[n]!.own(leaf);
    }),
  );
  const starts = blocks.map((_, b) =>
    blocks.slice(0, b).reduce((sum, block) => sum + spreads[block]!.length, 0),
  );
  const split = (point: Float64Array): Float64Array[] =>
    spreads.map((values, block) => {
      const b = blocks.indexOf(block);
      return b < 0 ? values : point.slice(starts[b]!, starts[b]! + values.length);
    });
  /** Each unit's coordinates with the spreads as proposed. */
  const pointsAt = (proposed: readonly Float64Array[]): Float64Array[] => {
    const now = sumsAt((block) => proposed[block]!);
    return units.map((unit, u) =>
      unit.point.map((value, i) => {
        const n = belongs(u, i);
        if (n < 0) return value;
        const leaf = model.leaves[u]![i]!;
        return innermostSum(n, leaf, now[n]!.sums) + now[n]!.own(leaf) * rests[u]![i]!;
      }),
    );
  };
  const levels = units.map(({ guided }) => guided);
  const isOfLikelihoods = blocks.some((block) => !model.kinds.some((kind) => kind.block === block));
  /** Units that a proposal moves. */
  const moved = units.flatMap(({ point }, u) =>
    isOfLikelihoods || point.some((_, i) => belongs(u, i) >= 0) ? [u] : [],
  );
  const resting = units.reduce((sum, { guided }, u) => (moved.includes(u) ? sum : sum + guided), 0);
  const whole = (point: Float64Array, floor: number): number => {
    const proposed = split(point);
    const points = pointsAt(proposed);
    let sum = resting;
    for (const u of moved) {
      const { guide, likelihood } = model.units[u]!;
      levels[u] = (guide ?? likelihood)(points[u]!, Number.NEGATIVE_INFINITY, proposed);
      sum += levels[u]!;
      if (sum === Number.NEGATIVE_INFINITY) break;
    }
    return sum > floor ? sum : Number.NEGATIVE_INFINITY;
  };
  const from = Float64Array.from(blocks.flatMap((block) => Array.from(spreads[block]!)));
  const chain: ChainState = {
    point: from,
    level: moved.reduce((sum, u) => sum + units[u]!.guided, resting),
  };
  ellipticalSliceStep(whole, unitSwing(from.length), chain, numbers);
  if (chain.point === from) return;
  const proposed = split(chain.point);
  const points = pointsAt(proposed);
  const exact = levels.slice();
  if (model.units.some(({ guide }) => guide !== undefined)) {
    let gained = 0;
    for (const u of moved) {
      const { guide, likelihood } = model.units[u]!;
      if (guide === undefined) continue;
      exact[u] = likelihood(points[u]!, Number.NEGATIVE_INFINITY, proposed);
      gained += exact[u]! - levels[u]! - (units[u]!.level - units[u]!.guided);
    }
    if (!(gained > Math.log(numbers.uniform()))) return;
  }
  units.forEach((unit, u) => {
    unit.point = points[u]!;
    unit.guided = levels[u]!;
    unit.level = exact[u]!;
  });
  for (const block of blocks) spreads[block] = proposed[block]!;
}
