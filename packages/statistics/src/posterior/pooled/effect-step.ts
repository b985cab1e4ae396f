import { choleskyFactor, solveLower } from '../cholesky.ts';
import { type ChainState, ellipticalSliceStep, priorOverSwing, type Swing } from '../elliptical-slice.ts';
import type { NumberSource } from '../number-source.ts';
import { scaled, WIDER } from '../sample-posterior.ts';
import type { NestState } from './nested-normal.ts';
import type { OrderedModel } from './pooled-model.ts';
import { normalLaw } from './unit-law.ts';
import type { UnitState } from './unit-step.ts';

/** How a unit's coordinates hang on the groups' effects: its middle is Σ shares · effects, its own spread beside it. */
interface Hanging {
  /** Of each coordinate the effects, standard normal, by their place among all, and how much of each it takes. */
  shares: (readonly (readonly [place: number, share: number])[])[];
  own: Float64Array;
  /** [coordinate][coordinate]: how far the unit goes along when its middle moves, by the likelihood that steers. */
  along: Float64Array[];
}

/** How units hang on the effects, and the normal law of these that the steering likelihoods of all units make. */
function hangingOf(
  model: OrderedModel,
  spreads: readonly Float64Array[],
  units: readonly UnitState[],
): { hangings: (Hanging | undefined)[]; starts: number[]; swing: Swing } {
  const starts: number[] = [];
  let count = 0;
  for (const { nodes } of model.nests) {
    starts.push(count);
    count += nodes.length;
  }
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
        solveLower(inner, column, column);
        for (let i = n - 1; i >= 0; i--) {
          for (let j = i + 1; j < n; j++) column[i]! -= inner[j]![i]! * column[j]!;
          column[i]! /= inner[i]![i]!;
        }
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
  return { hangings, starts, swing: normalLaw(curved, towards) };
}

/**
 * Moves the effects of all groups of all kinds at once, the units going along as far as the likelihoods that steer let
 * them: one unit after the other, each held back by the others, would take long to carry a whole group away. Drawn from is
 * the posterior itself, whatever steers: the slice asks every unit's own likelihood, or its guide and then that.
 */
export function moveEffects(
  model: OrderedModel,
  states: readonly NestState[],
  spreads: readonly Float64Array[],
  units: readonly UnitState[],
  numbers: NumberSource,
): void {
  const { hangings, starts, swing } = hangingOf(model, spreads, units);
  const from = new Float64Array(swing.mean.length);
  if (from.length === 0) return;
  states.forEach((state, kind) => {
    const sums = state.effects(numbers);
    const { parent, level } = model.nests[kind]!;
    const variances = model.kinds[kind]!.variances(spreads[model.kinds[kind]!.block]!);
    sums.forEach((sum, node) => {
      const above = parent[node]! < 0 ? 0 : sums[parent[node]!]!;
      from[starts[kind]! + node] = (sum - above) / Math.sqrt(variances[level[node]!]!);
    });
  });
  const moved = hangings.flatMap((hanging, u) => (hanging === undefined ? [] : [{ u, ...hanging }]));
  const middleOf = (row: Hanging['shares'][number], effects: Float64Array): number =>
    row.reduce((sum, [place, share]) => sum + share * effects[place]!, 0);
  const points = units.map(({ point }) => point);
  const levels = units.map(({ guided }) => guided);
  const whole = (effects: Float64Array, floor: number): number => {
    let sum = 0;
    for (const { u, shares, own, along } of moved) {
      const { point } = units[u]!;
      const shift = Float64Array.from(shares, (row) => middleOf(row, effects) - middleOf(row, from));
      const there = point.slice();
      for (let k = 0; k < shift.length; k++) {
        if (shift[k] === 0) continue;
        for (let i = 0; i < there.length; i++) there[i]! += along[i]![k]! * shift[k]!;
      }
      shares.forEach((row, i) => {
        const x = (there[i]! - middleOf(row, effects)) / own[i]!;
        sum -= 0.5 * x * x;
      });
      const { guide, likelihood } = model.units[u]!;
      levels[u] = (guide ?? likelihood)(there, Number.NEGATIVE_INFINITY, spreads);
      points[u] = there;
      sum += levels[u]!;
      if (sum === Number.NEGATIVE_INFINITY) break;
    }
    return sum > floor ? sum : Number.NEGATIVE_INFINITY;
  };
  const here = moved.reduce((sum, { u, shares, own }) => {
    const squares = shares.reduce((total, row, i) => {
      const x = (units[u]!.point[i]! - middleOf(row, from)) / own[i]!;
      return total + x * x;
    }, 0);
    return sum - 0.5 * squares + units[u]!.guided;
  }, 0);
  const steered = scaled(swing, WIDER);
  const chain: ChainState = {
    point: from,
    level: here + priorOverSwing(steered, from, new Float64Array(from.length)),
  };
  ellipticalSliceStep(whole, steered, chain, numbers);
  if (chain.point === from) return;
  const exact = levels.slice();
  if (moved.some(({ u }) => model.units[u]!.guide !== undefined)) {
    let gained = 0;
    for (const { u } of moved) {
      const { guide, likelihood } = model.units[u]!;
      if (guide === undefined) continue;
      exact[u] = likelihood(points[u]!, Number.NEGATIVE_INFINITY, spreads);
      gained += exact[u]! - levels[u]! - (units[u]!.level - units[u]!.guided);
    }
    if (!(gained > Math.log(numbers.uniform()))) return;
  }
  for (const { u } of moved) {
    units[u]!.point = points[u]!;
    units[u]!.guided = levels[u]!;
    units[u]!.level = exact[u]!;
  }
}
