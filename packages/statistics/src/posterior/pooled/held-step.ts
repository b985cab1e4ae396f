import { type ChainState, ellipticalSliceStep } from '../elliptical-slice.ts';
import type { NumberSource } from '../number-source.ts';
import { unitSwing } from '../sample-posterior.ts';
import { type NestState, ownVariance } from './nested-normal.ts';
import type { OrderedModel } from './pooled-model.ts';
import { type OwnLaws, type UnitShift, unitShift } from './unit-shift.ts';
import type { UnitState } from './unit-step.ts';

/** Of a unit whose own laws do not change. */
const staying = (point: Float64Array): UnitShift => ({
  moved: (_, into) => {
    into.set(point);
    return 0;
  },
});

/** Sums of effects down to each node, and the variances of the levels, of every kind. */
interface Held {
  sums: Float64Array;
  variances: ArrayLike<number>;
}

/** Effects of every kind in their own standard deviations, drawn as the units have them. */
function standardEffects(
  { kinds, nests }: OrderedModel,
  states: readonly NestState[],
  spreads: readonly Float64Array[],
  numbers: NumberSource,
): Float64Array[] {
  return kinds.map(({ block, variances }, k) => {
    const sums = states[k]!.effects(numbers);
    const now = variances(spreads[block]!);
    const { parent, level } = nests[k]!;
    return sums.map(
      (sum, node) => (sum - (parent[node]! < 0 ? 0 : sums[parent[node]!]!)) / Math.sqrt(now[level[node]!]!),
    );
  });
}

function heldAt(
  { kinds, nests }: OrderedModel,
  effects: readonly Float64Array[],
  spreads: readonly Float64Array[],
): Held[] {
  return kinds.map(({ block, variances: of }, k) => {
    const variances = of(spreads[block]!);
    const { parent, level } = nests[k]!;
    const sums = new Float64Array(parent.length);
    effects[k]!.forEach((effect, node) => {
      const above = parent[node]! < 0 ? 0 : sums[parent[node]!]!;
      sums[node] = above + Math.sqrt(variances[level[node]!]!) * effect;
    });
    return { sums, variances };
  });
}

/** The laws of a unit's coordinates with the effects held. */
function heldLaws(model: OrderedModel, u: number, { apart }: UnitState, held: readonly Held[]): OwnLaws {
  const { coordinates } = model.units[u]!;
  const mean = new Float64Array(coordinates.length);
  const sd = new Float64Array(coordinates.length).fill(1);
  coordinates.forEach(({ kind, clique }, i) => {
    if (kind === undefined || (clique !== undefined && apart[clique])) return;
    const { sums, variances } = held[kind]!;
    const nest = model.nests[kind]!;
    const leaf = model.leaves[u]![i]!;
    const node = nest.innermost[leaf]!;
    mean[i] = node < 0 ? 0 : sums[node]!;
    sd[i] = Math.sqrt(ownVariance(nest, leaf, variances));
  });
  return { mean, sd };
}

/** Log density of a unit under its laws, but for a constant; the spreads of some coordinates alone change. */
function logLaws({ mean, sd }: OwnLaws, point: Float64Array, some: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < point.length; i++) {
    const x = (point[i]! - mean[i]!) / sd[i]!;
    sum -= 0.5 * x * x;
  }
  for (const i of some) sum -= Math.log(sd[i]!);
  return sum;
}

/**
 * Moves the numbers of some blocks with the groups' effects held, in their own standard deviations, and every unit with its
 * place held within its law times the likelihood that steers: where that says little a unit goes with its group, and
 * where it says much it stays. Where it is the likelihood itself, this is to move the numbers with the units integrated out;
 * what is drawn from is the posterior whatever steers. Between the two ways of O. Papaspiliopoulos, G. O. Roberts, M. Sköld
 * (2007), A general framework for the parametrization of hierarchical models, Statistical Science 22:59, from memory.
 */
export function moveWithEffectsHeld(
  model: OrderedModel,
  states: readonly NestState[],
  spreads: Float64Array[],
  units: UnitState[],
  blocks: readonly number[],
  numbers: NumberSource,
): void {
  const effects = standardEffects(model, states, spreads, numbers);
  const isOfLikelihoods = blocks.some((block) => !model.kinds.some((kind) => kind.block === block));
  const before = heldAt(model, effects, spreads);
  let here = 0;
  const moved = units.flatMap((unit, u) => {
    const { coordinates, steering } = model.units[u]!;
    const some = coordinates.flatMap(({ kind, clique }, i) =>
      kind !== undefined &&
      blocks.includes(model.kinds[kind]!.block) &&
      !(clique !== undefined && unit.apart[clique])
        ? [i]
        : [],
    );
    if (some.length === 0 && !isOfLikelihoods) return [];
    const laws = heldLaws(model, u, unit, before);
    const shift = some.length === 0 ? staying(unit.point) : unitShift(unit.point, laws, steering, some);
    const volume = shift?.moved(laws, new Float64Array(unit.point.length)) ?? Number.NEGATIVE_INFINITY;
    here += unit.guided + volume + logLaws(laws, unit.point, some);
    return [{ u, some, shift, point: unit.point, level: unit.guided }];
  });
  if (!(here > Number.NEGATIVE_INFINITY)) return;
  const starts = blocks.map((_, b) =>
    blocks.slice(0, b).reduce((sum, block) => sum + spreads[block]!.length, 0),
  );
  const split = (point: Float64Array): Float64Array[] =>
    spreads.map((values, block) => {
      const b = blocks.indexOf(block);
      return b < 0 ? values : point.slice(starts[b]!, starts[b]! + values.length);
    });
  const whole = (point: Float64Array, floor: number): number => {
    const proposed = split(point);
    const held = heldAt(model, effects, proposed);
    let sum = 0;
    for (const own of moved) {
      const { guide, likelihood } = model.units[own.u]!;
      const laws = heldLaws(model, own.u, units[own.u]!, held);
      own.point = new Float64Array(own.point.length);
      const volume = own.shift!.moved(laws, own.point);
      if (volume === Number.NEGATIVE_INFINITY) return volume;
      own.level = (guide ?? likelihood)(own.point, Number.NEGATIVE_INFINITY, proposed);
      sum += own.level + volume + logLaws(laws, own.point, own.some);
      if (sum === Number.NEGATIVE_INFINITY) break;
    }
    return sum > floor ? sum : Number.NEGATIVE_INFINITY;
  };
  const from = Float64Array.from(blocks.flatMap((block) => Array.from(spreads[block]!)));
  const chain: ChainState = { point: from, level: here };
  ellipticalSliceStep(whole, unitSwing(from.length), chain, numbers);
  if (chain.point === from) return;
  const proposed = split(chain.point);
  let gained = 0;
  const exact = moved.map(({ u, point, level }) => {
    const { guide, likelihood } = model.units[u]!;
    if (guide === undefined) return level;
    const there = likelihood(point, Number.NEGATIVE_INFINITY, proposed);
    gained += there - level - (units[u]!.level - units[u]!.guided);
    return there;
  });
  if (!(gained >= 0 || gained > Math.log(numbers.uniform()))) return;
  moved.forEach(({ u, point, level }, m) => {
    units[u]!.point = point;
    units[u]!.guided = level;
    units[u]!.level = exact[m]!;
  });
  for (const block of blocks) spreads[block] = proposed[block]!;
}
