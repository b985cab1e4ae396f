/**
 * Where, from 0 to 1, the cubic with these slopes at its ends and this difference between them has its peak; −1 where
 * it has none. Its slope is first (1 − t) + last t + c t (1 − t).
 */
export function cubicPeak(first: number, last: number, difference: number): number {
  const c = 6 * difference - 3 * (first + last);
  if (!(first > 0 && last <= 0) && Math.abs(c) < 4 * Math.min(Math.abs(first), Math.abs(last))) return -1;
  const b = last - first + c;
  const square = b * b + 4 * c * first;
  if (square < 0) return -1;
  const root = Math.sqrt(square);
  const t = b < 0 ? (2 * first) / (root - b) : (b + root) / (2 * c);
  return t >= 0 && t <= 1 ? t : -1;
}

/** Value at `t` of the cubic with these values and slopes at its ends, 0 and 1. */
export function cubicValue(left: number, right: number, first: number, last: number, t: number): number {
  const s = 1 - t;
  return s * s * ((1 + 2 * t) * left + t * first) + t * t * ((1 + 2 * s) * right - s * last);
}
