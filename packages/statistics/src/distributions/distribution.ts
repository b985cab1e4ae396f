/** Smallest and largest value a law can take; ±Infinity where it has no end. */
export interface Support {
  readonly low: number;
  readonly high: number;
}

/**
 * What every law can say of itself. `laws.ts` has checked the parameters and set laws without spread aside
 * before it asks, so the functions here may divide by the spread. `fillFromNormals` turns `count` standard normal
 * numbers into values; it allocates nothing and may write over its own input.
 */
export interface Distribution<L> {
  readonly problem: (law: L) => string | undefined;
  readonly quantile: (law: L, u: number) => number;
  readonly cumulative: (law: L, x: number) => number;
  readonly density: (law: L, x: number) => number;
  readonly mean: (law: L) => number;
  readonly variance: (law: L) => number;
  readonly support: (law: L) => Support;
  readonly fillFromNormals: (law: L, normals: Float64Array, out: Float64Array, count: number) => void;
}

/** Why a parameter is not a finite number of at least `minimum`, or undefined. */
export function tooSmall(name: string, value: number, minimum: number): string | undefined {
  if (Number.isFinite(value) && value >= minimum) return undefined;
  return `${name}: read ${value}; a finite number of at least ${minimum} is needed.`;
}

/** Why a parameter is not a finite number, or undefined. */
export function notFinite(name: string, value: number): string | undefined {
  return Number.isFinite(value) ? undefined : `${name}: read ${value}; a finite number is needed.`;
}
