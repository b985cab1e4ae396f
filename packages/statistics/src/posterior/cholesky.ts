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
