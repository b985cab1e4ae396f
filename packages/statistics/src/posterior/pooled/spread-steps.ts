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
