import { choleskyFactor, lowerFactor, solveLower, solveUpper } from '../cholesky.ts';
import type { NormalLikelihood } from './pooled-model.ts';

/** Independent normal laws of a unit's coordinates. */
export interface OwnLaws {
  mean: Float64Array;
  sd: Float64Array;
}

/** How a unit goes along when the laws of some of its coordinates change. */
export interface UnitShift {
  /**
   * Writes the unit's place under other laws of those coordinates over `into`.
   * @returns log of the volume that a unit of places takes up there; −Infinity where there is no such place
   */
  moved: (laws: OwnLaws, into: Float64Array) => number;
}

/**
 * By laws times a normal likelihood a unit is normal, and the rest of it hangs on some coordinates in one way whatever the
 * laws of those are. So a unit can keep its place, in standard deviations, while those laws change: it goes with them where
 * the likelihood says little and stays where it says much. Derived by completing the square.
 * @param some  the coordinates whose laws change, at least one
 * @returns undefined where laws and likelihood make no normal law
 */
export function unitShift(
  point: Float64Array,
  laws: OwnLaws,
  { precision, pull }: NormalLikelihood,
  some: readonly number[],
): UnitShift | undefined {
  const n = point.length;
  const weight = (i: number): number => 1 / (laws.sd[i]! * laws.sd[i]!);
  const factor = lowerFactor(
    precision.map((own, i) => {
      const row = Float64Array.from(own);
      row[i]! += weight(i);
      return row;
    }),
  );
  if (factor === undefined) return undefined;
  const solved = (right: Float64Array): Float64Array =>
    solveUpper(factor, solveLower(factor, right, right), right);
  const middle = solved(Float64Array.from(pull, (x, i) => x + weight(i) * laws.mean[i]!));
  // Covariances with those coordinates, a column each.
  const columns = some.map((i) => {
    const unit = new Float64Array(n);
    unit[i] = 1;
    return solved(unit);
  });
  const within = choleskyFactor(some.map((i) => columns.map((column) => column[i]!)));
  /** Of each other coordinate how far it goes along with each of those. */
  const along = Array.from({ length: n }, (_, i) => {
    const row = Float64Array.from(columns, (column) => column[i]!);
    return solveUpper(within, solveLower(within, row, row), row);
  });
  // What the likelihood says of those coordinates, all others integrated out.
  const inverse = some.map((_, a) => {
    const unit = new Float64Array(some.length);
    unit[a] = 1;
    return solveUpper(within, solveLower(within, unit, unit), unit);
  });
  const towards = Float64Array.from(inverse, (row, a) =>
    row.reduce((sum, x, b) => sum + x * middle[some[b]!]!, -weight(some[a]!) * laws.mean[some[a]!]!),
  );
  const evidence = inverse.map((row, a) => row.map((x, b) => (a === b ? x - weight(some[a]!) : x)));
  const lawIn = ({ sd }: OwnLaws): Float64Array[] | undefined =>
    lowerFactor(
      evidence.map((row, a) => {
        const curved = row.slice();
        curved[a]! += 1 / (sd[some[a]!]! * sd[some[a]!]!);
        return curved;
      }),
    );
  const now = lawIn(laws);
  if (now === undefined) return undefined;
  // Where the coordinates stand, in standard deviations of that law.
  const place = Float64Array.from(some, (_, a) => {
    let sum = 0;
    for (let b = a; b < some.length; b++) sum += now[b]![a]! * (point[some[b]!]! - middle[some[b]!]!);
    return sum;
  });
  const to = new Float64Array(some.length);
  return {
    moved: (other, into) => {
      const law = lawIn(other);
      if (law === undefined) return Number.NEGATIVE_INFINITY;
      some.forEach((i, a) => {
        to[a] = towards[a]! + other.mean[i]! / (other.sd[i]! * other.sd[i]!);
      });
      solveLower(law, to, to);
      for (let a = 0; a < to.length; a++) to[a]! += place[a]!;
      solveUpper(law, to, to);
      into.set(point);
      let volume = 0;
      some.forEach((i, a) => {
        volume -= Math.log(law[a]![a]!);
        const shift = to[a]! - point[i]!;
        for (let j = 0; j < n; j++) into[j]! += along[j]![a]! * shift;
      });
      return volume;
    },
  };
}
