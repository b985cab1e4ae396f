import type { LogLikelihood } from '../elliptical-slice.ts';
import { type Nest, openNest } from './nested-normal.ts';

/**
 * Partial pooling: units, each with coordinates and a likelihood, whose coordinates of one kind hang together by nested
 * groups. How much of a kind's variance lies at which level depends on spreads, which are learned too.
 */
export interface PooledModel {
  /** In any order; names are all different. */
  units: readonly Unit[];
  kinds: readonly Kind[];
  /** Numbers that the spreads are made of, standard normal a priori. */
  spreads: readonly SpreadBlock[];
  /**
   * Blocks that are also moved with the groups' effects held, a list for each step, in turn. One on which no kind hangs, as
   * the likelihoods alone depend on it, is moved by no other.
   */
  withEffectsHeld?: readonly (readonly number[])[];
}

/** Numbers of some spreads that are moved together. */
export interface SpreadBlock {
  name: string;
  size: number;
}

/** Coordinates that stand for the same thing in every unit. */
export interface Kind {
  name: string;
  /** Index of the block that its variances are made of. */
  block: number;
  /** Variances of the levels, outermost first, then of the unit's own effect; all above nought. */
  variances: (block: Float64Array) => ArrayLike<number>;
}

export interface Coordinate {
  /** Index of its kind; left out: standard normal and on its own. */
  kind?: number;
  /** Its groups, outermost first; inner ones may be left out. */
  groups?: readonly string[];
  /** Set of coordinates that may all stand apart from their groups at once, being standard normal then. */
  clique?: number;
}

/** A normal law in place of a likelihood, up to a constant: exp(−½ zᵀ precision z + pull·z). It only steers. */
export interface NormalLikelihood {
  precision: readonly ArrayLike<number>[];
  pull: ArrayLike<number>;
}

/** A likelihood of a unit's coordinates; the spreads' numbers, block by block, for one that depends on them. */
export type UnitLikelihood = (point: Float64Array, floor: number, spreads: readonly Float64Array[]) => number;

export interface Unit {
  name: string;
  coordinates: readonly Coordinate[];
  likelihood: UnitLikelihood;
  /** A cheaper one that is near it: steps are tried by it, and put right by one value of the likelihood itself. */
  guide?: UnitLikelihood;
  steering: NormalLikelihood;
  /** Chance a priori that each of its cliques stands apart. */
  apart?: readonly number[];
  /** Where a chain may start. */
  start: (normal: () => number) => Float64Array;
}

/** A model put in order: units by name, and of each kind the nest of its leaves. */
export interface OrderedModel extends PooledModel {
  nests: readonly Nest[];
  /** Of each unit's coordinates the leaf in its kind's nest; −1 for one without. */
  leaves: readonly (readonly number[])[];
}

/** Puts a model in the order of its units' names, so that the order in which they came does not matter. */
export function orderModel(model: PooledModel): OrderedModel {
  const units = [...model.units].sort((a, b) => (a.name < b.name ? -1 : 1));
  const paths: (readonly string[])[][] = model.kinds.map(() => []);
  const leaves = units.map(({ coordinates }) =>
    coordinates.map(({ kind, groups = [] }) => (kind === undefined ? -1 : paths[kind]!.push(groups) - 1)),
  );
  return { ...model, units, nests: paths.map(openNest), leaves };
}

/** A likelihood of coordinates alone, the spreads as they stand. */
export const atSpreads =
  (likelihood: UnitLikelihood, spreads: readonly Float64Array[]): LogLikelihood =>
  (point, floor) =>
    likelihood(point, floor, spreads);
