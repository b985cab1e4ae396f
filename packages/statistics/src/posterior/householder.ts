/**
 * Least squares of columns · s = right by Householder reflections; columns and right are overwritten.
 * @returns the solution, and the triangular factor
 */
export function householder(
  columns: Float64Array[],
  right: Float64Array,
): { s: Float64Array; r: Float64Array[] } {
  const n = columns.length;
  const m = right.length;
  for (let k = 0; k < n; k++) {
    const own = columns[k]!;
    let norm = 0;
    for (let i = k; i < m; i++) norm = Math.hypot(norm, own[i]!);
    const alpha = own[k]! > 0 ? -norm : norm;
    const v = own.slice(k);
    v[0]! -= alpha;
    const square = v.reduce((sum, value) => sum + value * value, 0);
    if (square === 0) continue;
    for (const column of [...columns.slice(k), right]) {
      let dot = 0;
      for (let i = k; i < m; i++) dot += v[i - k]! * column[i]!;
      for (let i = k; i < m; i++) column[i]! -= (2 * dot * v[i - k]!) / square;
    }
  }
  const s = new Float64Array(n);
  for (let k = n - 1; k >= 0; k--) {
    let sum = right[k]!;
    for (let j = k + 1; j < n; j++) sum -= columns[j]![k]! * s[j]!;
    s[k] = sum / columns[k]![k]!;
  }
  return { s, r: columns };
}
