import { tabulatedTail } from '../normal-table.ts';
import { type Distribution, notFinite } from './distribution.ts';

/** Least, likeliest and greatest value; low = high is a constant. */
export interface TriangularLaw {
  readonly kind: 'triangular';
  readonly low: number;
  readonly mode: number;
  readonly high: number;
}

export const triangular: Distribution<TriangularLaw> = {
  problem: ({ low, mode, high }) =>
    notFinite('low', low) ??
    notFinite('mode', mode) ??
    notFinite('high', high) ??
    (low <= high ? undefined : `high: read ${high}; at least low, ${low}, is needed.`) ??
    (low <= mode && mode <= high
      ? undefined
      : `mode: read ${mode}; from low, ${low}, to high, ${high}, is needed.`),
  quantile: ({ low, mode, high }, u) => {
    const rise = (mode - low) / (high - low);
    return u < rise
      ? low + Math.sqrt(u * (high - low) * (mode - low))
      : high - Math.sqrt((1 - u) * (high - low) * (high - mode));
  },
  cumulative: ({ low, mode, high }, x) => {
    if (x <= low) return 0;
    if (x >= high) return 1;
    return x < mode
      ? (x - low) ** 2 / ((high - low) * (mode - low))
      : 1 - (high - x) ** 2 / ((high - low) * (high - mode));
  },
  density: ({ low, mode, high }, x) => {
    if (x < low || x > high) return 0;
    if (x === mode) return 2 / (high - low);
    return x < mode
      ? (2 * (x - low)) / ((high - low) * (mode - low))
      : (2 * (high - x)) / ((high - low) * (high - mode));
  },
  mean: ({ low, mode, high }) => (low + mode + high) / 3,
  variance: ({ low, mode, high }) => {
    const whole = high - low;
    const left = mode - low;
    return (whole * whole - whole * left + left * left) / 18;
  },
  support: ({ low, high }) => ({ low, high }),
  fillFromNormals: ({ low, mode, high }, normals, out, count) => {
    const left = (high - low) * (mode - low);
    const right = (high - low) * (high - mode);
    const fall = (high - mode) / (high - low);
    for (let i = 0; i < count; i++) {
      const z = normals[i]!;
      const above = tabulatedTail(z);
      out[i] = above > fall ? low + Math.sqrt(tabulatedTail(-z) * left) : high - Math.sqrt(above * right);
    }
  },
};
