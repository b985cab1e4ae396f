import type { Swing } from '../elliptical-slice.ts';
import { covarianceFactor } from '../mode.ts';
import type { NestState } from './nested-normal.ts';
import type { Coordinate, NormalLikelihood } from './pooled-model.ts';

/**
 * The normal law of a unit's coordinates before its own likelihood, given all other units: coordinate i is
 * mean[i] + Σ rows[i] · u, with u standard normal. A row is told by its few entries.
 */
export interface UnitLaw {
  mean: Float64Array;
  rows: readonly (readonly (readonly [index: number, share: number])[])[];
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
  const rows: [number, number][][] = [];
  coordinates.forEach(({ kind, clique }, i) => {
    if (kind === undefined || (clique !== undefined && isApart(clique))) {
      rows.push([[i, 1]]);
      return;
    }
    const state = states[kind]!;
    const leaf = leaves[i]!;
    const before = coordinates.flatMap((other, k) =>
      k < i && other.kind === kind && !(other.clique !== undefined && isApart(other.clique)) ? [k] : [],
    );
    for (const k of before) state.set(leaves[k]!, 0);
    const base = state.foretold(leaf);
    const row = new Map<number, number>();
    mean[i] = base.mean;
    for (const k of before) {
      state.set(leaves[k]!, 1);
      const share = state.foretold(leaf).mean - base.mean;
      state.set(leaves[k]!, 0);
      mean[i]! += share * mean[k]!;
      for (const [index, own] of rows[k]!) row.set(index, (row.get(index) ?? 0) + share * own);
    }
    for (const k of before) state.set(leaves[k]!, undefined);
    row.set(i, Math.sqrt(base.variance));
    rows.push([...row]);
  });
  return { mean, rows };
}

/** The coordinates at some standard normal numbers of a law. */
export function pointAt({ mean, rows }: UnitLaw, normals: Float64Array): Float64Array {
  return mean.map((middle, i) => rows[i]!.reduce((sum, [k, share]) => sum + share * normals[k]!, middle));
}

/** The standard normal numbers of a law at some coordinates. */
export function normalsAt({ mean, rows }: UnitLaw, point: Float64Array): Float64Array {
  const normals = new Float64Array(point.length);
  point.forEach((value, i) => {
    let rest = value - mean[i]!;
    let own = 1;
    for (const [k, share] of rows[i]!) {
      if (k === i) own = share;
      else rest -= share * normals[k]!;
    }
    normals[i] = rest / own;
  });
  return normals;
}

/** Log determinant of a law's factor. */
export const logSpread = ({ rows }: UnitLaw): number =>
  rows.reduce((sum, row, i) => sum + Math.log(row.find(([k]) => k === i)![1]), 0);

/** Curvature and pull of a law times a normal likelihood, in the law's own numbers. */
function posteriorForm(
  { mean, rows }: UnitLaw,
  { precision, pull }: NormalLikelihood,
): { curved: Float64Array[]; towards: Float64Array; atMean: number } {
  const n = mean.length;
  const through = precision.map((row) => {
    const out = new Float64Array(n);
    for (let i = 0; i < n; i++) {
      if (row[i] === 0) continue;
      for (const [k, share] of rows[i]!) out[k]! += row[i]! * share;
    }
    return out;
  });
  const curved = Array.from({ length: n }, (_, i) => {
    const row = new Float64Array(n);
    row[i] = 1;
    return row;
  });
  const towards = new Float64Array(n);
  let atMean = 0;
  for (let i = 0; i < n; i++) {
    const own = precision[i]!;
    let drawn = 0;
    for (let k = 0; k < n; k++) drawn += own[k]! * mean[k]!;
    atMean += mean[i]! * (pull[i]! - 0.5 * drawn);
    for (const [k, share] of rows[i]!) {
      towards[k]! += share * (pull[i]! - drawn);
      const into = curved[k]!;
      const from = through[i]!;
      for (let j = 0; j < n; j++) into[j]! += share * from[j]!;
    }
  }
  return { curved, towards, atMean };
}

/** A law times a normal likelihood as a normal law of its own numbers, about which steps may swing. */
export function steeredSwing(law: UnitLaw, steering: NormalLikelihood): Swing {
  const { curved, towards } = posteriorForm(law, steering);
  const factor = covarianceFactor(curved);
  const n = towards.length;
  const half = new Float64Array(n);
  for (let i = 0; i < n; i++) for (let k = 0; k <= i; k++) half[k]! += factor[i]![k]! * towards[i]!;
  const mean = Float64Array.from({ length: n }, (_, i) => {
    let sum = 0;
    for (let k = 0; k <= i; k++) sum += factor[i]![k]! * half[k]!;
    return sum;
  });
  return { mean, factor };
}

/** Log of the mean of a normal likelihood over a law, up to the likelihood's own constant. */
export function logMeanLikelihood(law: UnitLaw, steering: NormalLikelihood): number {
  const { atMean, towards } = posteriorForm(law, steering);
  const { mean, factor } = steeredSwing(law, steering);
  const gain = towards.reduce((sum, x, i) => sum + x * mean[i]!, 0);
  return atMean + 0.5 * gain + factor.reduce((sum, row, i) => sum + Math.log(row[i]!), 0);
}
