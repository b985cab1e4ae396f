/**
 * Quantile of a sample by linear interpolation between its sorted values, at position (n − 1)q.
 * Source: R. J. Hyndman and Y. Fan (1996), Am. Stat. 50:361, type 7.
 * @param sorted  rising, at least one value, without NaN (not checked); empty: RangeError
 * @param q       0 to 1; else RangeError
 * @returns the unit of the sample
 */
export function sampleQuantile(sorted: Float64Array, q: number): number {
  if (!(q >= 0 && q <= 1)) throw new RangeError(`q: read ${q}; a share from 0 to 1 is needed.`);
  if (sorted.length === 0) throw new RangeError('sorted: read no value; at least one is needed.');
  const position = (sorted.length - 1) * q;
  const index = Math.floor(position);
  const below = sorted[index]!;
  const rest = position - index;
  return rest === 0 ? below : below + rest * (sorted[index + 1]! - below);
}
