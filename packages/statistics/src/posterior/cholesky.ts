/**
 * Lower triangular factor L of a symmetric positive definite matrix, L Lᵀ = A.
 * @param matrix  rows, of which the lower triangle is read
 * @throws RangeError when the matrix is not positive definite
 */
export function choleskyFactor(matrix: readonly ArrayLike<number>[]): Float64Array[] {
  const factor = matrix.map(() => new Float64Array(matrix.length));
  const failed = factorise(matrix, factor);
  if (failed === undefined) return factor;
  throw new RangeError(`row ${failed.row}: pivot ${failed.pivot}; the matrix is not positive definite.`);
}

/** The same, or undefined where the matrix is not positive definite. */
export function lowerFactor(matrix: readonly ArrayLike<number>[]): Float64Array[] | undefined {
  const factor = matrix.map(() => new Float64Array(matrix.length));
  return factorise(matrix, factor) === undefined ? factor : undefined;
}

/** Writes the factor. @returns where that cannot go on */
function factorise(
  matrix: readonly ArrayLike<number>[],
  factor: readonly Float64Array[],
): { row: number; pivot: number } | undefined {
  for (let i = 0; i < factor.length; i++) {
    const row = factor[i]!;
    const from = matrix[i]!;
    for (let j = 0; j <= i; j++) {
      const other = factor[j]!;
      let sum = from[j]!;
      for (let k = 0; k < j; k++) sum -= row[k]! * other[k]!;
      if (i !== j) row[j] = sum / other[j]!;
      else if (sum > 0) row[i] = Math.sqrt(sum);
      else return { row: i, pivot: sum };
    }
  }
  return undefined;
}

/** x of L x = b, written over `into`; b and `into` may be the same array. */
export function solveLower(
  factor: readonly Float64Array[],
  b: ArrayLike<number>,
  into: Float64Array,
): Float64Array {
  for (let i = 0; i < factor.length; i++) {
    const row = factor[i]!;
    let sum = b[i]!;
    for (let k = 0; k < i; k++) sum -= row[k]! * into[k]!;
    into[i] = sum / row[i]!;
  }
  return into;
}

/** x of Lᵀ x = b, written over `into`; b and `into` may be the same array. */
export function solveUpper(
  factor: readonly Float64Array[],
  b: ArrayLike<number>,
  into: Float64Array,
): Float64Array {
  for (let i = 0; i < factor.length; i++) into[i] = b[i]!;
  for (let i = factor.length - 1; i >= 0; i--) {
    const row = factor[i]!;
    const x = into[i]! / row[i]!;
    into[i] = x;
    for (let k = 0; k < i; k++) into[k]! -= row[k]! * x;
  }
  return into;
}

/** Lifts of a diagonal that are tried before a matrix is given up. */
const MOST_LIFTS = 16;

/**
 * Lower triangular factor L of a symmetric matrix's inverse, L Lᵀ = A⁻¹, without the inverse itself. A matrix that is not
 * positive definite has its diagonal lifted until it is.
 * @param matrix  rows, of which the upper triangle is read
 */
export function inverseFactor(matrix: readonly Float64Array[]): Float64Array[] {
  const n = matrix.length;
  for (let lift = 0, tries = 0; ; lift = lift === 0 ? 0.1 : 3 * lift, tries++) {
    const upper = upperFactor(matrix, lift);
    if (upper === undefined) {
      if (tries === MOST_LIFTS) throw new RangeError('the matrix is not positive definite.');
      continue;
    }
    // A = U Uᵀ with U upper triangular, so that L = U⁻ᵀ is lower triangular; column by column of U⁻¹.
    const factor = Array.from({ length: n }, () => new Float64Array(n));
    for (let j = 0; j < n; j++) {
      const row = factor[j]!;
      row[j] = 1 / upper[j]![j]!;
      for (let i = j - 1; i >= 0; i--) {
        const own = upper[i]!;
        let sum = 0;
        for (let k = i + 1; k <= j; k++) sum += own[k]! * row[k]!;
        row[i] = -sum / own[i]!;
      }
    }
    return factor;
  }
}

/** Upper triangular U with U Uᵀ = A, or undefined where A is not positive definite. */
function upperFactor(matrix: readonly Float64Array[], lift: number): Float64Array[] | undefined {
  const n = matrix.length;
  const upper = Array.from({ length: n }, () => new Float64Array(n));
  for (let j = n - 1; j >= 0; j--) {
    const own = upper[j]!;
    for (let i = j; i >= 0; i--) {
      const row = upper[i]!;
      let sum = matrix[i]![j]!;
      if (i === j) sum += lift;
      for (let k = j + 1; k < n; k++) sum -= row[k]! * own[k]!;
      if (i !== j) row[j] = sum / own[j]!;
      else if (sum > 0) own[j] = Math.sqrt(sum);
      else return undefined;
    }
  }
  return upper;
}
