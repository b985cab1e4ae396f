/** Middle of some numbers; they are sorted. */
export function median(values: number[]): number {
  values.sort((a, b) => a - b);
  const half = values.length >> 1;
  return values.length % 2 === 1 ? values[half]! : 0.5 * (values[half - 1]! + values[half]!);
}

/** Median of the absolute deviations from a middle, as the standard deviation of a normal law with that one. */
export const robustSd = (values: readonly number[], middle: number): number =>
  1.4826 * median(values.map((value) => Math.abs(value - middle)));

/**
 * Which samples are spikes: further than `limit` robust standard deviations, and than `least`, from the running median
 * (Hampel's filter).
 */
export function spikes(values: Float64Array, halfWidth: number, limit: number, least: number): Uint8Array {
  const out = new Uint8Array(values.length);
  for (let i = 0; i < values.length; i++) {
    const near = Array.from(values.subarray(Math.max(0, i - halfWidth), i + halfWidth + 1));
    const middle = median(near);
    const spread = robustSd(near, middle);
    if (Math.abs(values[i]! - middle) > Math.max(limit * spread, least)) out[i] = 1;
  }
  return out;
}

/** Value and slope of the straight line through the samples within `reach` seconds; NaN where there are fewer than 3. */
export function localLine(
  time: Float64Array,
  values: Float64Array,
  skip: Uint8Array,
  reach: number,
): { value: Float64Array; slope: Float64Array } {
  const n = time.length;
  const value = new Float64Array(n).fill(Number.NaN);
  const slope = new Float64Array(n).fill(Number.NaN);
  let from = 0;
  for (let i = 0; i < n; i++) {
    while (time[from]! < time[i]! - reach) from++;
    let count = 0;
    let t1 = 0;
    let t2 = 0;
    let y1 = 0;
    let ty = 0;
    for (let j = from; j < n && time[j]! <= time[i]! + reach; j++) {
      if (skip[j] === 1) continue;
      const t = time[j]! - time[i]!;
      count++;
      t1 += t;
      t2 += t * t;
      y1 += values[j]!;
      ty += t * values[j]!;
    }
    const span = count * t2 - t1 * t1;
    if (count < 3 || !(span > 0)) continue;
    slope[i] = (count * ty - t1 * y1) / span;
    value[i] = (y1 - slope[i]! * t1) / count;
  }
  return { value, slope };
}
