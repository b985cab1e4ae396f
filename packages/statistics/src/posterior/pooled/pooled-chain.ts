import type { NumberSource } from '../number-source.ts';
import { numberSource } from '../number-source.ts';
import { type EffectBlocks, effectBlocks, moveEffects } from './effect-step.ts';
import { moveWithEffectsHeld } from './held-step.ts';
import { nestState } from './nested-normal.ts';
import type { OrderedModel } from './pooled-model.ts';
import { fillNests, moveSpread, setLeaves } from './spread-steps.ts';
import { unitLaw } from './unit-law.ts';
import { moveUnit, tryApart, type UnitState } from './unit-step.ts';

/** How long a chain is. */
export interface ChainEffort {
  seed: number | string;
  /** Sweeps that are thrown away, and those that count. */
  pilot: number;
  draws: number;
}

/** Draws of one chain, one after the other: plain numbers, so that a thread may hand them on. */
export interface PooledDraws {
  draws: number;
  /** Of each unit by the order of names, [draw · coordinates + coordinate]. */
  units: Float64Array[];
  /** Of each unit's cliques, 1 where it stands apart, [draw · cliques + clique]. */
  apart: Uint8Array[];
  /** Of each block, [draw · size + number]. */
  spreads: Float64Array[];
  /** Of each kind the sums of effects down to its nodes, [draw · nodes + node]. */
  effects: Float64Array[];
  end: ChainEnd;
}

/** Where a chain ended, so that it may be taken further. */
export interface ChainEnd {
  /** Sweeps so far. */
  sweeps: number;
  points: Float64Array[];
  apart: boolean[][];
  spreads: Float64Array[];
}

/** Moves of some spreads with the effects held a sweep; one where each is dear. */
const HELD = 3;
/** Sweeps from one try to have cliques stand apart, or belong, to the next: mostly it is refused. */
const APART_EVERY = 4;
/** Whether each move of many units has to be put right by dear likelihoods: fewer are worth it then. */
const isDear = ({ units }: OrderedModel): boolean => units.some(({ guide }) => guide !== undefined);

/** Blocks of effects that a sweep moves: groups within groups, the outermost and all at once; fewer where each is dear. */
function togetherIn(
  model: OrderedModel,
  { inner, outer, all }: EffectBlocks,
  sweep: number,
): readonly (readonly number[])[] {
  const turn = Math.floor(sweep / 2);
  if (isDear(model)) {
    if (sweep % 2 === 1) return inner;
    if (all.length === 0) return [];
    return [turn % 2 === 0 ? all : outer[((turn - 1) / 2) % outer.length]!];
  }
  if (sweep % 2 === 1 || all.length === 0) return inner;
  return turn % 4 === 0 ? [...inner, all] : [...inner, ...outer];
}

/** Blocks of spreads that a sweep moves with the effects held: some of the lists, in turn. */
function heldIn(model: OrderedModel, sweep: number): (readonly number[])[] {
  const { withEffectsHeld = [] } = model;
  const count = Math.min(withEffectsHeld.length, isDear(model) ? 1 : HELD);
  return Array.from(
    { length: count },
    (_, n) => withEffectsHeld[(count * sweep + n) % withEffectsHeld.length]!,
  );
}

/** Starts that are tried before a unit is taken to have none. */
const STARTS = 100;

function startOf(
  { name, start, likelihood, guide, apart = [] }: OrderedModel['units'][number],
  spreads: readonly Float64Array[],
  numbers: NumberSource,
): UnitState {
  for (let tries = 0; tries < STARTS; tries++) {
    const point = start(numbers.normal);
    const level = likelihood(point, Number.NEGATIVE_INFINITY, spreads);
    const guided = guide === undefined ? level : guide(point, Number.NEGATIVE_INFINITY, spreads);
    if (!(level > Number.NEGATIVE_INFINITY && guided > Number.NEGATIVE_INFINITY)) continue;
    return { point, level, guided, apart: apart.map(() => false) };
  }
  throw new RangeError(`${name}: none of ${STARTS} starts has a finite likelihood.`);
}

function standing(
  { name, likelihood, guide }: OrderedModel['units'][number],
  point: Float64Array,
  apart: readonly boolean[],
  spreads: readonly Float64Array[],
): UnitState {
  const level = likelihood(point, Number.NEGATIVE_INFINITY, spreads);
  const guided = guide === undefined ? level : guide(point, Number.NEGATIVE_INFINITY, spreads);
  if (!(level > Number.NEGATIVE_INFINITY))
    throw new RangeError(`${name}: no finite likelihood where it ended.`);
  return { point, level, guided, apart: [...apart] };
}

/**
 * One chain of draws from the posterior of a partially pooled model: in turn every unit given all others, whether it
 * stands apart, and the spreads. Shared effects are integrated out of all but the last. The same seed and chain give the same
 * draws, whatever the order in which units came.
 * @param from  where an earlier piece of it ended; from its start when left out
 * @throws RangeError when a unit has no start with a finite likelihood
 */
export function pooledChain(
  model: OrderedModel,
  { seed, pilot, draws }: ChainEffort,
  chain: number,
  from?: ChainEnd,
): PooledDraws {
  const sofar = from?.sweeps ?? 0;
  const numbers = numberSource(seed, sofar === 0 ? `pooled/${chain}` : `pooled/${chain} after ${sofar}`);
  const spreads =
    from?.spreads.map((values) => values.slice()) ??
    model.spreads.map(({ size }) => Float64Array.from({ length: size }, () => numbers.normal()));
  const states = model.nests.map(nestState);
  const blocks = effectBlocks(model);
  const units = model.units.map((unit, u) =>
    from === undefined
      ? startOf(unit, spreads, numberSource(seed, `pooled/${chain}/${unit.name}`))
      : standing(unit, from.points[u]!, from.apart[u]!, spreads),
  );
  const out: Omit<PooledDraws, 'end'> = {
    draws,
    units: model.units.map(({ coordinates }) => new Float64Array(draws * coordinates.length)),
    apart: model.units.map(({ apart = [] }) => new Uint8Array(draws * apart.length)),
    spreads: model.spreads.map(({ size }) => new Float64Array(draws * size)),
    effects: model.nests.map(({ nodes }) => new Float64Array(draws * nodes.length)),
  };
  for (let sweep = sofar; sweep < sofar + pilot + draws; sweep++) {
    fillNests(model, states, spreads, units);
    model.units.forEach((unit, u) => {
      const state = units[u]!;
      const lawWith = (apart: readonly boolean[]) =>
        unitLaw(unit.coordinates, model.leaves[u]!, states, (clique) => apart[clique]!);
      setLeaves(model, states, u, state, false);
      unit.apart?.forEach((_, clique) => {
        if (sweep % APART_EVERY !== 0) return;
        const laws = {
          now: lawWith(state.apart),
          other: lawWith(state.apart.map((is, c) => (c === clique ? !is : is))),
        };
        tryApart(unit, clique, laws, spreads, state, numbers);
      });
      moveUnit(unit, lawWith(state.apart), spreads, state, sweep, numbers);
      setLeaves(model, states, u, state, true);
    });
    model.spreads.forEach((_, block) => {
      // One without kinds is the likelihoods' own, and moved with the effects held.
      if (!model.kinds.some((kind) => kind.block === block)) return;
      moveSpread(model, states, spreads, units, block, numbers);
    });
    // Both ask every unit at once: neither is worth that in every sweep.
    const together = togetherIn(model, blocks, sweep);
    if (together.length > 0) {
      moveEffects(model, states, spreads, units, together, numbers);
      fillNests(model, states, spreads, units);
    }
    for (const held of heldIn(model, sweep)) {
      moveWithEffectsHeld(model, states, spreads, units, held, numbers);
      fillNests(model, states, spreads, units);
    }
    const draw = sweep - sofar - pilot;
    if (draw < 0) continue;
    units.forEach(({ point, apart }, u) => {
      out.units[u]!.set(point, draw * point.length);
      out.apart[u]!.set(apart.map(Number), draw * apart.length);
    });
    spreads.forEach((values, block) => {
      out.spreads[block]!.set(values, draw * values.length);
    });
    states.forEach((state, k) => {
      const sums = state.effects(numbers);
      out.effects[k]!.set(sums, draw * sums.length);
    });
  }
  const end = {
    sweeps: sofar + pilot + draws,
    points: units.map(({ point }) => point),
    apart: units.map(({ apart }) => apart),
    spreads,
  };
  return { ...out, end };
}

/** Draws of two pieces of a chain, the later after the earlier, without the first few of both together. */
export function joinedDraws(earlier: PooledDraws, later: PooledDraws, without: number): PooledDraws {
  const draws = earlier.draws + later.draws - without;
  const joined = <T extends Float64Array | Uint8Array>(a: readonly T[], b: readonly T[]): T[] =>
    a.map((head, i) => {
      const tail = b[i]!;
      const size = head.length / earlier.draws;
      const all = head.constructor as new (length: number) => T;
      const out = new all(draws * size);
      const kept = head.subarray(Math.min(head.length, without * size));
      out.set(kept);
      out.set(tail.subarray(tail.length - (out.length - kept.length)), kept.length);
      return out;
    });
  return {
    draws,
    units: joined(earlier.units, later.units),
    apart: joined(earlier.apart, later.apart),
    spreads: joined(earlier.spreads, later.spreads),
    effects: joined(earlier.effects, later.effects),
    end: later.end,
  };
}
