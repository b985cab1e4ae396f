import { choleskyFactor, solveLower } from '@tubgap/statistics';

const meanOf = (x: ArrayLike<number>): number => {
  let sum = 0;
  for (let i = 0; i < x.length; i++) sum += x[i]!;
  return sum / x.length;
};

/** Mean product of the departures of two numbers from their means. */
export function covariance(a: ArrayLike<number>, b: ArrayLike<number>): number {
  const [ma, mb] = [meanOf(a), meanOf(b)];
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += (a[i]! - ma) * (b[i]! - mb);
  return sum / a.length;
}

/**
 * Share of the variance of one number that readings of others explain, 0 to 1, by the straight line that does so best, and as
 * far as so many draws tell it: what k numbers of chance would explain is taken off.
 * Source: adjusted coefficient of determination, 1 − (1 − R²)(n − 1)/(n − k − 1), R² = cᵀS⁻¹c/σ², from memory.
 * @param readings  each a number's draws, in the order of those of `of`
 * @param sds  by which each is misread; 0: it is known for sure
 */
export function explained(
  of: ArrayLike<number>,
  readings: readonly ArrayLike<number>[],
  sds: readonly number[],
): number {
  const own = covariance(of, of);
  const told = readings.flatMap((one, k) => {
    const variance = covariance(one, one);
    return variance > 0 ? [{ one, variance, size: Math.sqrt(variance + sds[k]! ** 2) }] : [];
  });
  if (!(own > 0) || told.length === 0) return 0;
  // Two readings that say the same to the last digit are one: a little of each is taken for its own.
  const among = told.map((a, i) =>
    told.map((b, k) => (i === k ? 1 + 1e-9 : covariance(a.one, b.one) / (a.size * b.size))),
  );
  const along = Float64Array.from(told, ({ one, size }) => covariance(of, one) / size);
  const whitened = solveLower(choleskyFactor(among), along, new Float64Array(told.length));
  const share = whitened.reduce((sum, x) => sum + x * x, 0) / own;
  const [n, k] = [of.length, told.length];
  return n > k + 1 ? Math.min(1, Math.max(0, 1 - ((1 - share) * (n - 1)) / (n - k - 1))) : 0;
}
