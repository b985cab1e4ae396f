/**
 * Lower triangular factor L of a symmetric positive definite matrix, L Lᵀ = A.
 * @param matrix  rows, of which the lower triangle is read
 * @throws RangeError when the matrix is not positive definite
 */
export function choleskyFactor(matrix: readonly ArrayLike<number>[]): Float64Array[] {
  const n = matrix.length;
  const factor = Array.from({ length: n }, () => new Float64Array(n));
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i]![j]!;
      for (let k = 0; k < j; k++) sum -= factor[i]![k]! * factor[j]![k]!;
      if (i === j) {
        if (!(sum > 0)) throw new RangeError(`row ${i}: pivot ${sum}; the matrix is not positive definite.`);
        factor[i]![i] = Math.sqrt(sum);
      } else factor[i]![j] = sum / factor[j]![j]!;
    }
  }
  return factor;
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
