import { choleskyFactor, solveLower, solveUpper } from '../cholesky.ts';
import { type ChainState, ellipticalSliceStep, priorOverSwing, type Swing } from '../elliptical-slice.ts';
import type { NumberSource } from '../number-source.ts';
import { scaled, WIDER } from '../sample-posterior.ts';
import type { NestState } from './nested-normal.ts';
import type { OrderedModel } from './pooled-model.ts';
import { normalLaw } from './unit-law.ts';
import type { UnitState } from './unit-step.ts';

/** Where each kind's effects begin among all, and how many there are. */
function placesOf({ nests }: OrderedModel): { starts: number[]; count: number } {
  const starts: number[] = [];
  let count = 0;
  for (const { nodes } of nests) {
    starts.push(count);
    count += nodes.length;
  }
  return { starts, count };
}

/** Effects that are moved together: of one group in all kinds, with the groups within it; by their places among all. */
export interface EffectBlocks {
  /** Groups within groups, each with those within it. */
  inner: readonly (readonly number[])[];
  /** Outermost groups, each alone. */
  outer: readonly (readonly number[])[];
  all: readonly number[];
}

export function effectBlocks(model: OrderedModel): EffectBlocks {
  const { starts, count } = placesOf(model);
  const inner = new Map<string, number[]>();
  const outer = new Map<string, number[]>();
  model.nests.forEach(({ nodes, level, parent }, kind) => {
    nodes.forEach((name, node) => {
      let head = node;
      while (level[head]! > 1) head = parent[head]!;
      const [into, key] = level[node] === 0 ? [outer, name] : [inner, nodes[head]!];
      into.set(key, [...(into.get(key) ?? []), starts[kind]! + node]);
    });
  });
  const byName = (blocks: Map<string, number[]>): number[][] =>
    [...blocks].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, places]) => places);
  return { inner: byName(inner), outer: byName(outer), all: Array.from({ length: count }, (_, i) => i) };
}

/** How a unit's coordinates hang on the groups' effects: its middle is Σ shares · effects, its own spread beside it. */
interface Hanging {
  /** Of each coordinate the effects, standard normal, by their place among all, and how much of each it takes. */
  shares: (readonly (readonly [place: number, share: number])[])[];
  own: Float64Array;
  /** [coordinate][coordinate]: how far the unit goes along when its middle moves, by the likelihood that steers. */
  along: Float64Array[];
}

/** How units hang on the effects, and curvature and pull of these that the steering likelihoods of all units make. */
function hangingOf(
  model: OrderedModel,
  spreads: readonly Float64Array[],
  units: readonly UnitState[],
): { hangings: (Hanging | undefined)[]; curved: Float64Array[]; towards: Float64Array } {
  const { starts, count } = placesOf(model);
  const variances = model.kinds.map((kind) => kind.variances(spreads[kind.block]!));
  const curved = Array.from({ length: count }, (_, i) => {
    const row = new Float64Array(count);
    row[i] = 1;
    return row;
  });
  const towards = new Float64Array(count);
  const hangings = model.units.map(
    ({ coordinates, steering: { precision, pull } }, u): Hanging | undefined => {
      const n = coordinates.length;
      const own = new Float64Array(n).fill(1);
      const shares = coordinates.map(({ kind, clique }, i): [number, number][] => {
        if (kind === undefined || (clique !== undefined && units[u]!.apart[clique])) return [];
        const { innermost, level, parent } = model.nests[kind]!;
        const row: [number, number][] = [];
        const innermostNode = innermost[model.leaves[u]![i]!]!;
        for (let node = innermostNode; node >= 0; node = parent[node]!) {
          row.push([starts[kind]! + node, Math.sqrt(variances[kind]![level[node]!]!)]);
        }
        let rest = 0;
        for (let l = innermostNode < 0 ? 0 : level[innermostNode]! + 1; l < variances[kind]!.length; l++) {
          rest += variances[kind]![l]!;
        }
        own[i] = Math.sqrt(rest);
        return row;
      });
      if (shares.every((row) => row.length === 0)) return undefined;
      // x = (z − middle)/own has the curvature I + S P S; its middle moves by −(I + S P S)⁻¹ S P for one of z's middle.
      const inner = choleskyFactor(
        precision.map((row, i) =>
          Float64Array.from({ length: n }, (_, k) => own[i]! * row[k]! * own[k]! + Number(i === k)),
        ),
      );
      const column = new Float64Array(n);
      const along = Array.from({ length: n }, () => new Float64Array(n));
      for (let k = 0; k < n; k++) {
        if (shares[k]!.length === 0) continue;
        for (let i = 0; i < n; i++) column[i] = own[i]! * precision[i]![k]!;
        solveUpper(inner, solveLower(inner, column, column), column);
        for (let i = 0; i < n; i++) along[i]![k] = Number(i === k) - own[i]! * column[i]!;
      }
      // Integrated over the unit's own, the likelihood of its middle has the curvature P · along and the pull alongᵀ · pull.
      for (let k = 0; k < n; k++) {
        if (shares[k]!.length === 0) continue;
        let drawn = 0;
        for (let i = 0; i < n; i++) drawn += along[i]![k]! * pull[i]!;
        for (const [place, share] of shares[k]!) towards[place]! += share * drawn;
        for (let j = 0; j < n; j++) {
          if (shares[j]!.length === 0) continue;
          let bend = 0;
          for (let i = 0; i < n; i++) bend += precision[j]![i]! * along[i]![k]!;
          for (const [a, x] of shares[j]!) for (const [b, y] of shares[k]!) curved[a]![b]! += x * bend * y;
        }
      }
      return { shares, own, along };
    },
  );
  return { hangings, curved, towards };
}

/**
 * Slices of a block by the guides to one answer of the likelihoods themselves, as spreads of the swing over that of the law that
 * steers; the same there and back. About too thin a law a chain stays long in a tail.
 */
const WIDTHS = [WIDER, 2.5, WIDER] as const;

/**
 * Moves the effects of groups, block by block, the units going along as far as the likelihoods that steer let them: one unit
 * after the other, each held back by the others, would take long to carry a whole group away. Few units at once make long
 * steps, for what steers is off by a little for each. Drawn from is the posterior itself, whatever steers: the slice asks
 * every unit's own likelihood, or its guide and then that.
 */
export function moveEffects(
  model: OrderedModel,
  states: readonly NestState[],
  spreads: readonly Float64Array[],
  units: readonly UnitState[],
  blocks: readonly (readonly number[])[],
  numbers: NumberSource,
): void {
  const { starts, count } = placesOf(model);
  if (count === 0 || blocks.length === 0) return;
  const { hangings, curved, towards } = hangingOf(model, spreads, units);
  const effects = new Float64Array(count);
  states.forEach((state, kind) => {
    const sums = state.effects(numbers);
    const { parent, level } = model.nests[kind]!;
    const variances = model.kinds[kind]!.variances(spreads[model.kinds[kind]!.block]!);
    sums.forEach((sum, node) => {
      const above = parent[node]! < 0 ? 0 : sums[parent[node]!]!;
      effects[starts[kind]! + node] = (sum - above) / Math.sqrt(variances[level[node]!]!);
    });
  });
  for (const block of blocks) {
    const within = new Set(block);
    const moved = hangings.flatMap((hanging, u) =>
      hanging?.shares.some((row) => row.some(([place]) => within.has(place))) ? [{ u, ...hanging }] : [],
    );
    // The law of the block, all other effects as they are.
    const law = normalLaw(
      block.map((i) => Float64Array.from(block, (k) => curved[i]![k]!)),
      Float64Array.from(block, (i) =>
        curved[i]!.reduce((sum, bend, k) => (within.has(k) ? sum : sum - bend * effects[k]!), towards[i]!),
      ),
    );
    const ended = moveBlock(model, spreads, units, { block, moved, effects, law }, numbers);
    block.forEach((place, i) => {
      effects[place] = ended[i]!;
    });
  }
}

interface Block {
  block: readonly number[];
  moved: readonly (Hanging & { u: number })[];
  /** Of all groups, as they are before. */
  effects: Float64Array;
  law: Swing;
}

/** Moves one block with its units. @returns its effects afterwards */
function moveBlock(
  model: OrderedModel,
  spreads: readonly Float64Array[],
  units: readonly UnitState[],
  { block, moved, effects, law }: Block,
  numbers: NumberSource,
): Float64Array {
  const from = Float64Array.from(block, (place) => effects[place]!);
  const now = effects.slice();
  const middleOf = (row: Hanging['shares'][number], at: Float64Array): number =>
    row.reduce((sum, [place, share]) => sum + share * at[place]!, 0);
  const before = moved.map(({ shares }) => Float64Array.from(shares, (row) => middleOf(row, effects)));
  const points = moved.map(({ u }) => units[u]!.point);
  const levels = moved.map(({ u }) => units[u]!.guided);
  const whole = (at: Float64Array, floor: number): number => {
    block.forEach((place, i) => {
      now[place] = at[i]!;
    });
    let sum = 0;
    for (const [m, { u, shares, own, along }] of moved.entries()) {
      const middles = shares.map((row) => middleOf(row, now));
      const there = units[u]!.point.slice();
      for (let k = 0; k < middles.length; k++) {
        const shift = middles[k]! - before[m]![k]!;
        if (shift === 0) continue;
        for (let i = 0; i < there.length; i++) there[i]! += along[i]![k]! * shift;
      }
      for (let i = 0; i < there.length; i++) {
        const x = (there[i]! - middles[i]!) / own[i]!;
        sum -= 0.5 * x * x;
      }
      const { guide, likelihood } = model.units[u]!;
      levels[m] = (guide ?? likelihood)(there, Number.NEGATIVE_INFINITY, spreads);
      points[m] = there;
      sum += levels[m]!;
      if (sum === Number.NEGATIVE_INFINITY) break;
    }
    return sum > floor ? sum : Number.NEGATIVE_INFINITY;
  };
  const here = moved.reduce((sum, { u, own }, m) => {
    const squares = own.reduce((total, sd, i) => {
      const x = (units[u]!.point[i]! - before[m]![i]!) / sd;
      return total + x * x;
    }, 0);
    return sum - 0.5 * squares + units[u]!.guided;
  }, 0);
  const chain: ChainState = { point: from, level: here };
  const scratch = new Float64Array(from.length);
  for (const wider of WIDTHS) {
    const steered = scaled(law, wider);
    const last = chain.point;
    chain.level += priorOverSwing(steered, last, scratch);
    ellipticalSliceStep(whole, steered, chain, numbers);
    chain.level -= priorOverSwing(steered, chain.point, scratch);
    if (chain.point === last) whole(last, Number.NEGATIVE_INFINITY);
  }
  if (chain.point === from) return from;
  const exact = levels.slice();
  let gained = 0;
  moved.forEach(({ u }, m) => {
    const { guide, likelihood } = model.units[u]!;
    if (guide === undefined) return;
    exact[m] = likelihood(points[m]!, Number.NEGATIVE_INFINITY, spreads);
    gained += exact[m]! - levels[m]! - (units[u]!.level - units[u]!.guided);
  });
  if (!(gained >= 0 || gained > Math.log(numbers.uniform()))) return from;
  moved.forEach(({ u }, m) => {
    units[u]!.point = points[m]!;
    units[u]!.guided = levels[m]!;
    units[u]!.level = exact[m]!;
  });
  return chain.point;
}
