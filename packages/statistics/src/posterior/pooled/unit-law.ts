import { inverseFactor, solveLower } from '../cholesky.ts';
import type { Swing } from '../elliptical-slice.ts';

import type { NestState } from './nested-normal.ts';
import type { Coordinate, NormalLikelihood } from './pooled-model.ts';

/**
 * The normal law of a unit's coordinates before its own likelihood, given all other units: coordinate i is
 * mean[i] + own[i] · u[i], with u standard normal, and where several of a unit hang together + Σ share · u[k] of those
 * before it.
 */
export interface UnitLaw {
  mean: Float64Array;
  own: Float64Array;
  others: readonly { i: number; k: number; share: number }[];
}

/**
 * The law of a unit, whose leaves are not known to the nests; they are not afterwards either. Coordinates of one kind
 * are foretold one after the other, each from the others units and from those before it.
 * @param isApart  whether a clique stands apart
 */
export function unitLaw(
  coordinates: readonly Coordinate[],
  leaves: readonly number[],
  states: readonly NestState[],
  isApart: (clique: number) => boolean,
): UnitLaw {
  const mean = new Float64Array(coordinates.length);
  const own = new Float64Array(coordinates.length).fill(1);
  const others: UnitLaw['others'][number][] = [];
  const hangs = ({ kind, clique }: Coordinate): boolean =>
    kind !== undefined && !(clique !== undefined && isApart(clique));
  coordinates.forEach((coordinate, i) => {
    if (!hangs(coordinate)) return;
    const { kind } = coordinate;
    const state = states[kind!]!;
    const leaf = leaves[i]!;
    const before: number[] = [];
    for (let k = 0; k < i; k++) if (coordinates[k]!.kind === kind && hangs(coordinates[k]!)) before.push(k);
    for (const k of before) state.set(leaves[k]!, 0);
    const base = state.foretold(leaf);
    mean[i] = base.mean;
    own[i] = Math.sqrt(base.variance);
    const row = new Map<number, number>();
    for (const k of before) {
      state.set(leaves[k]!, 1);
      const share = state.foretold(leaf).mean - base.mean;
      state.set(leaves[k]!, 0);
      mean[i]! += share * mean[k]!;
      row.set(k, (row.get(k) ?? 0) + share * own[k]!);
      for (const other of others) {
        if (other.i === k) row.set(other.k, (row.get(other.k) ?? 0) + share * other.share);
      }
    }
    for (const k of before) state.set(leaves[k]!, undefined);
    for (const [k, share] of row) others.push({ i, k, share });
  });
  return { mean, own, others };
}

/** The coordinates at some standard normal numbers of a law. */
export function pointAt({ mean, own, others }: UnitLaw, normals: Float64Array): Float64Array {
  const point = new Float64Array(mean.length);
  for (let i = 0; i < point.length; i++) point[i] = mean[i]! + own[i]! * normals[i]!;
  for (const { i, k, share } of others) point[i]! += share * normals[k]!;
  return point;
}

/** The standard normal numbers of a law at some coordinates. */
export function normalsAt({ mean, own, others }: UnitLaw, point: Float64Array): Float64Array {
  const normals = new Float64Array(point.length);
  let next = 0;
  for (let i = 0; i < point.length; i++) {
    let rest = point[i]! - mean[i]!;
    for (; next < others.length && others[next]!.i === i; next++) {
      rest -= others[next]!.share * normals[others[next]!.k]!;
    }
    normals[i] = rest / own[i]!;
  }
  return normals;
}

/** Curvature and pull of a law times a normal likelihood, in the law's own numbers. */
function posteriorForm(
  { mean, own, others }: UnitLaw,
  { precision, pull }: NormalLikelihood,
): { curved: Float64Array[]; towards: Float64Array; atMean: number } {
  const n = mean.length;
  const through = precision.map((row) => {
    const out = new Float64Array(n);
    for (let k = 0; k < n; k++) out[k] = row[k]! * own[k]!;
    for (const { i, k, share } of others) out[k]! += row[i]! * share;
    return out;
  });
  const drawn = new Float64Array(n);
  let atMean = 0;
  for (let i = 0; i < n; i++) {
    const row = precision[i]!;
    let sum = 0;
    for (let k = 0; k < n; k++) sum += row[k]! * mean[k]!;
    atMean += mean[i]! * (pull[i]! - 0.5 * sum);
    drawn[i] = pull[i]! - sum;
  }
  const towards = new Float64Array(n);
  const curved = through.map((row, i) => {
    const out = new Float64Array(n);
    for (let j = 0; j < n; j++) out[j] = own[i]! * row[j]!;
    out[i]! += 1;
    towards[i] = own[i]! * drawn[i]!;
    return out;
  });
  for (const { i, k, share } of others) {
    towards[k]! += share * drawn[i]!;
    for (let j = 0; j < n; j++) curved[k]![j]! += share * through[i]![j]!;
  }
  return { curved, towards, atMean };
}

/** The normal law of a curvature and a pull, as mean and factor of the covariance. */
export function normalLaw(curved: readonly Float64Array[], towards: Float64Array): Swing {
  const factor = inverseFactor(curved);
  const n = towards.length;
  const half = new Float64Array(n);
  for (let i = 0; i < n; i++) for (let k = 0; k <= i; k++) half[k]! += factor[i]![k]! * towards[i]!;
  const mean = new Float64Array(n);
  for (let i = 0; i < n; i++) for (let k = 0; k <= i; k++) mean[i]! += factor[i]![k]! * half[k]!;
  return { mean, factor };
}

/** A law times a normal likelihood as a normal law of its own numbers, about which steps may swing. */
export function steeredSwing(law: UnitLaw, steering: NormalLikelihood): Swing {
  const { curved, towards } = posteriorForm(law, steering);
  return normalLaw(curved, towards);
}

/**
 * Where a unit stands within its law times its normal likelihood, as standard normal numbers: they may be kept while the
 * law changes, and take the unit along.
 * @param normals  of the law
 */
export const placeOf = ({ mean, factor }: Swing, normals: Float64Array): Float64Array => {
  const place = normals.map((x, i) => x - mean[i]!);
  return solveLower(factor, place, place);
};

/** The numbers of a law at some place. */
export const normalsOf = ({ mean, factor }: Swing, place: Float64Array): Float64Array =>
  mean.map((middle, i) => {
    const row = factor[i]!;
    let sum = middle;
    for (let k = 0; k <= i; k++) sum += row[k]! * place[k]!;
    return sum;
  });

/** Log of the volume that a unit of places takes up. */
export const logVolume = ({ factor }: Swing): number =>
  factor.reduce((sum, row, i) => sum + Math.log(row[i]!), 0);

/** Log of the mean of a normal likelihood over a law, up to the likelihood's own constant. */
export function logMeanLikelihood(law: UnitLaw, steering: NormalLikelihood): number {
  const { atMean, curved, towards } = posteriorForm(law, steering);
  const { mean, factor } = normalLaw(curved, towards);
  const gain = towards.reduce((sum, x, i) => sum + x * mean[i]!, 0);
  return atMean + 0.5 * gain + logVolume({ mean, factor });
}
