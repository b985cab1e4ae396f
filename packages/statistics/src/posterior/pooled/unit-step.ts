import { type ChainState, ellipticalSliceStep, priorOverSwing, type Swing } from '../elliptical-slice.ts';
import type { NumberSource } from '../number-source.ts';
import { PLAIN_EVERY, scaled, unitSwing, WIDER } from '../sample-posterior.ts';
import { atSpreads, type Unit } from './pooled-model.ts';
import { logVolume, normalsAt, normalsOf, placeOf, pointAt, steeredSwing, type UnitLaw } from './unit-law.ts';

/** Where a unit of a chain stands. */
export interface UnitState {
  point: Float64Array;
  /** Its log-likelihood there, and by the guide; the same where there is none. */
  level: number;
  guided: number;
  /** Whether each of its cliques stands apart. */
  apart: boolean[];
}

/** Steps by the guide to one of the likelihood itself. */
const GUIDED_STEPS = 3;
/** One sweep in so many asks the likelihood alone: where a guide is wrong a chain then does not stay for long. */
const UNGUIDED_EVERY = 6;

/**
 * Moves a unit within its law times its likelihood: by elliptical slices in the law's own numbers, about the law times
 * the normal likelihood that steers. With a guide the slices are of that, and where they end is taken or left by how much
 * better the likelihood itself likes it (delayed acceptance: J. A. Christen and C. Fox (2005), Journal of Computational
 * and Graphical Statistics 14:795); what is drawn from is the likelihood's own either way.
 */
export function moveUnit(
  unit: Unit,
  law: UnitLaw,
  spreads: readonly Float64Array[],
  state: UnitState,
  sweep: number,
  numbers: NumberSource,
): void {
  const likelihood = atSpreads(unit.likelihood, spreads);
  const isGuided = unit.guide !== undefined && sweep % UNGUIDED_EVERY !== 0;
  const guide = isGuided ? atSpreads(unit.guide!, spreads) : likelihood;
  const own = (normals: Float64Array, floor: number): number => guide(pointAt(law, normals), floor);
  const swing = scaled(steeredSwing(law, unit.steering), WIDER);
  const chain: ChainState = { point: normalsAt(law, state.point), level: 0 };
  const scratch = new Float64Array(chain.point.length);
  let level = isGuided ? state.guided : state.level;
  const stepAbout = (about: Swing): void => {
    chain.level = level + priorOverSwing(about, chain.point, scratch);
    ellipticalSliceStep(own, about, chain, numbers);
    level = chain.level - priorOverSwing(about, chain.point, scratch);
  };
  // Where a guided unit is asked without its guide, one dear step is enough.
  const isPlain = sweep % PLAIN_EVERY === 0 && (isGuided || unit.guide === undefined);
  const plain = isPlain ? unitSwing(scratch.length) : undefined;
  const steps = isGuided ? GUIDED_STEPS : 1;
  // The same way there and back: what is taken or left as a whole must be reversible.
  if (plain !== undefined && isGuided) stepAbout(plain);
  for (let step = 0; step < steps; step++) stepAbout(swing);
  if (plain !== undefined) stepAbout(plain);
  const point = pointAt(law, chain.point);
  if (!isGuided) {
    state.point = point;
    state.level = level;
    state.guided = unit.guide?.(point, Number.NEGATIVE_INFINITY, spreads) ?? level;
    return;
  }
  const floor = Math.log(numbers.uniform()) + state.level - state.guided + level;
  const there = likelihood(point, floor);
  if (!(there > floor)) return;
  state.point = point;
  state.level = there;
  state.guided = level;
}

/**
 * Tries whether a clique stands apart or belongs: the numbers that tell the unit's place within the law times its normal
 * likelihood are kept, and the place goes with them, so that a change of the law takes it along. Metropolis and Hastings.
 * @param laws  of the unit as it stands, and with the clique the other way
 */
export function tryApart(
  unit: Unit,
  clique: number,
  laws: { now: UnitLaw; other: UnitLaw },
  spreads: readonly Float64Array[],
  state: UnitState,
  numbers: NumberSource,
): boolean {
  const swings = {
    now: steeredSwing(laws.now, unit.steering),
    other: steeredSwing(laws.other, unit.steering),
  };
  const normals = normalsAt(laws.now, state.point);
  const elsewhere = normalsOf(swings.other, placeOf(swings.now, normals));
  const point = pointAt(laws.other, elsewhere);
  const squares = (x: Float64Array): number => x.reduce((sum, value) => sum + value * value, 0);
  const chance = unit.apart![clique]!;
  const odds = Math.log(chance / (1 - chance)) * (state.apart[clique] ? -1 : 1);
  const gained =
    odds + 0.5 * (squares(normals) - squares(elsewhere)) + logVolume(swings.other) - logVolume(swings.now);
  const least = Math.log(numbers.uniform());
  const guide = atSpreads(unit.guide ?? unit.likelihood, spreads);
  const guided = guide(point, state.guided + least - gained);
  if (!(gained + guided - state.guided > least)) return false;
  let level = guided;
  if (unit.guide !== undefined) {
    const floor = Math.log(numbers.uniform()) + state.level - state.guided + guided;
    level = unit.likelihood(point, floor, spreads);
    if (!(level > floor)) return false;
  }
  state.point = point;
  state.level = level;
  state.guided = guided;
  state.apart[clique] = !state.apart[clique];
  return true;
}
