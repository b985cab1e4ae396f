import { normalTail } from '../../src/index.ts';

/** A limit state of known failure probability, in standard normal space. */
export interface Problem {
  readonly name: string;
  readonly dimension: number;
  /** Limit state of one point of normal space; it fails below 0. The point may be written over. */
  readonly limitState: (u: Float64Array) => number;
  /** P(limit state < 0). */
  readonly probability: number;
  /** What makes the problem hard, and a word on its figure. */
  readonly remark: string;
}

/** An input as a function of the standard normal number of the same probability. */
export type Input = (z: number) => number;

export const standard: Input = (z) => z;
export const normal =
  (mean: number, sd: number): Input =>
  (z) =>
    mean + sd * z;
export const exponential: Input = (z) => -Math.log(normalTail(z));
export const uniform =
  (low: number, high: number): Input =>
  (z) =>
    z < 0 ? low + (high - low) * normalTail(-z) : high - (high - low) * normalTail(z);

/** Log-normal by its own mean and sd. */
export function logNormal(mean: number, sd: number): Input {
  const spread = Math.sqrt(Math.log1p((sd / mean) ** 2));
  const middle = Math.log(mean) - (spread * spread) / 2;
  return (z) => Math.exp(middle + spread * z);
}

/** Gumbel's law of largest values by its own mean and sd. */
export function gumbel(mean: number, sd: number): Input {
  const scale = (sd * Math.sqrt(6)) / Math.PI;
  const EULER = 0.5772156649015329;
  return (z) => mean - EULER * scale - scale * Math.log(-Math.log1p(-normalTail(z)));
}

export const copies = (count: number, input: Input): Input[] => Array.from({ length: count }, () => input);

export const sum = (x: Float64Array): number => {
  let total = 0;
  for (let k = 0; k < x.length; k++) total += x[k]!;
  return total;
};

export function problem(
  name: string,
  inputs: readonly Input[],
  limitState: (x: Float64Array) => number,
  probability: number,
  remark: string,
): Problem {
  const state = (u: Float64Array): number => {
    for (let k = 0; k < u.length; k++) u[k] = inputs[k]!(u[k]!);
    return limitState(u);
  };
  return { name, dimension: inputs.length, limitState: state, probability, remark };
}

/** A limit state of two inputs, spelled with their names. */
export const pair =
  (limitState: (x: number, y: number) => number) =>
  (x: Float64Array): number =>
    limitState(x[0]!, x[1]!);

/** Two bows and two planes, the planes at `far`/√2. */
export const fourBranch =
  (far: number) =>
  (x: number, y: number): number => {
    const bow = 3 + 0.1 * (x - y) ** 2;
    const lean = (x + y) / Math.SQRT2;
    return Math.min(bow - lean, bow + lean, x - y + far / Math.SQRT2, y - x + far / Math.SQRT2);
  };
