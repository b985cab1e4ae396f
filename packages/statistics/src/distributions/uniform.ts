import { tabulatedTail } from '../normal-table.ts';
import { type Distribution, notFinite } from './distribution.ts';

/** Every value from low to high equally likely; low = high is a constant. */
export interface UniformLaw {
  readonly kind: 'uniform';
  readonly low: number;
  readonly high: number;
}

export const uniform: Distribution<UniformLaw> = {
  problem: (law) =>
    notFinite('low', law.low) ??
    notFinite('high', law.high) ??
    (law.low <= law.high ? undefined : `high: read ${law.high}; at least low, ${law.low}, is needed.`),
  quantile: (law, u) => law.low + u * (law.high - law.low),
  cumulative: (law, x) => Math.min(1, Math.max(0, (x - law.low) / (law.high - law.low))),
  density: (law, x) => (x < law.low || x > law.high ? 0 : 1 / (law.high - law.low)),
  mean: (law) => law.low + (law.high - law.low) / 2,
  variance: (law) => (law.high - law.low) ** 2 / 12,
  support: (law) => ({ low: law.low, high: law.high }),
  fillFromNormals: ({ low, high }, normals, out, count) => {
    const width = high - low;
    for (let i = 0; i < count; i++) {
      const z = normals[i]!;
      out[i] = z < 0 ? low + width * tabulatedTail(-z) : high - width * tabulatedTail(z);
    }
  },
};
