import { type Distribution, notFinite } from './distribution.ts';

/** A number without uncertainty. */
export interface ConstantLaw {
  readonly kind: 'constant';
  readonly value: number;
}

/** All mass in one point: the density is Infinity there, 0 elsewhere. */
export const constant: Distribution<ConstantLaw> = {
  problem: (law) => notFinite('value', law.value),
  quantile: (law) => law.value,
  cumulative: (law, x) => (x < law.value ? 0 : 1),
  density: (law, x) => (x === law.value ? Infinity : 0),
  mean: (law) => law.value,
  variance: () => 0,
  support: (law) => ({ low: law.value, high: law.value }),
  fillFromNormals: (law, _normals, out, count) => {
    out.fill(law.value, 0, count);
  },
};
