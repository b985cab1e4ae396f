import type { Model } from '../src/index.ts';

/** A model of the unit cube whose indices are known exactly. */
export interface SensitivityFunction {
  readonly dimension: number;
  readonly model: Model;
  readonly mean: number;
  readonly variance: number;
  readonly first: readonly number[];
  readonly total: readonly number[];
}

/**
 * sin x₁ + 7 sin² x₂ + 0.1 x₃⁴ sin x₁ with x uniform on (−π, π): one input acts only through another.
 * Source: T. Ishigami and T. Homma (1990); exact values derived by integration.
 */
export function ishigami(): SensitivityFunction {
  const a = 7;
  const b = 0.1;
  const alone1 = (1 + (b * Math.PI ** 4) / 5) ** 2 / 2;
  const alone2 = (a * a) / 8;
  const both13 = b * b * Math.PI ** 8 * (1 / 18 - 1 / 50);
  const variance = alone1 + alone2 + both13;
  const model: Model = (u, n, out) => {
    for (let i = 0; i < n; i++) {
      const [x, y, z] = [u[3 * i]!, u[3 * i + 1]!, u[3 * i + 2]!].map((p) => Math.PI * (2 * p - 1));
      out[i] = Math.sin(x!) + a * Math.sin(y!) ** 2 + b * z! ** 4 * Math.sin(x!);
    }
  };
  return {
    dimension: 3,
    model,
    mean: a / 2,
    variance,
    first: [alone1 / variance, alone2 / variance, 0],
    total: [(alone1 + both13) / variance, alone2 / variance, both13 / variance],
  };
}

/**
 * Π (|4x_i − 2| + a_i)/(1 + a_i) with x uniform on (0, 1): the greater a_i, the less the input matters.
 * Source: A. Saltelli and I. M. Sobol' (1995); exact values derived: V_i = 1/(3(1 + a_i)²), V = Π(1 + V_i) − 1.
 * @param a  at least one number, each 0 or more; else RangeError
 */
export function gFunction(a: readonly number[]): SensitivityFunction {
  if (a.length === 0 || a.some((value) => !(value >= 0))) {
    throw new RangeError(`a: read ${a.join(', ')}; at least one number of 0 or more is needed.`);
  }
  const dimension = a.length;
  const alone = a.map((value) => 1 / (3 * (1 + value) ** 2));
  const product = alone.reduce((value, v) => value * (1 + v), 1);
  const variance = product - 1;
  const model: Model = (u, n, out) => {
    for (let i = 0; i < n; i++) {
      let value = 1;
      for (let k = 0; k < dimension; k++) {
        value *= (Math.abs(4 * u[i * dimension + k]! - 2) + a[k]!) / (1 + a[k]!);
      }
      out[i] = value;
    }
  };
  return {
    dimension,
    model,
    mean: 1,
    variance,
    first: alone.map((v) => v / variance),
    total: alone.map((v) => (v * product) / (1 + v) / variance),
  };
}
