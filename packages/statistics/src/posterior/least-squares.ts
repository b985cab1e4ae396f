/** A curve with parameters, and the points that it is fitted to. */
export interface CurveFit {
  /** Value of the curve at a place. */
  curve: (x: number, parameters: Float64Array) => number;
  x: ArrayLike<number>;
  y: ArrayLike<number>;
  /** Standard deviations of the values of y, in proportion; all equal when left out. */
  sd?: ArrayLike<number>;
  start: readonly number[];
}

export interface FittedCurve {
  parameters: Float64Array;
  /** Standard deviations of the parameters, from the residuals. */
  sd: Float64Array;
  /** Weighted sum of squared residuals, and their standard deviation. */
  sumOfSquares: number;
  residualSd: number;
  steps: number;
}

const MOST_STEPS = 500;
const SETTLED = 1e-12;
/** Relative step of the five-point derivative: its error is then of the order of the rounding of the curve itself. */
const STEP = 5e-4;

/** Derivatives of the curve by its parameters at every place: central differences over five points. */
function jacobian(fit: CurveFit, parameters: Float64Array, weights: Float64Array): Float64Array[] {
  const moved = parameters.slice();
  return Array.from(parameters, (value, k) => {
    const step = STEP * (Math.abs(value) || 1);
    const column = new Float64Array(weights.length);
    for (const [times, share] of [
      [-2, 1],
      [-1, -8],
      [1, 8],
      [2, -1],
    ] as const) {
      moved[k] = value + times * step;
      for (let i = 0; i < column.length; i++) {
        column[i]! += (weights[i]! * share * fit.curve(fit.x[i]!, moved)) / (12 * step);
      }
    }
    moved[k] = value;
    return column;
  });
}

/**
 * Least squares of columns · s = right by Householder reflections; columns and right are overwritten.
 * @returns the solution, and the triangular factor
 */
function householder(columns: Float64Array[], right: Float64Array): { s: Float64Array; r: Float64Array[] } {
  const n = columns.length;
  const m = right.length;
  for (let k = 0; k < n; k++) {
    const own = columns[k]!;
    let norm = 0;
    for (let i = k; i < m; i++) norm = Math.hypot(norm, own[i]!);
    const alpha = own[k]! > 0 ? -norm : norm;
    const v = own.slice(k);
    v[0]! -= alpha;
    const square = v.reduce((sum, value) => sum + value * value, 0);
    if (square === 0) continue;
    for (const column of [...columns.slice(k), right]) {
      let dot = 0;
      for (let i = k; i < m; i++) dot += v[i - k]! * column[i]!;
      for (let i = k; i < m; i++) column[i]! -= (2 * dot * v[i - k]!) / square;
    }
  }
  const s = new Float64Array(n);
  for (let k = n - 1; k >= 0; k--) {
    let sum = right[k]!;
    for (let j = k + 1; j < n; j++) sum -= columns[j]![k]! * s[j]!;
    s[k] = sum / columns[k]![k]!;
  }
  return { s, r: columns };
}

/** Square roots of the diagonal of (RᵀR)⁻¹. */
function rootDiagonal(r: readonly Float64Array[]): Float64Array {
  const n = r.length;
  const sum = new Float64Array(n);
  for (let unit = 0; unit < n; unit++) {
    const column = new Float64Array(n);
    for (let k = unit; k >= 0; k--) {
      let rest = k === unit ? 1 : 0;
      for (let j = k + 1; j <= unit; j++) rest -= r[j]![k]! * column[j]!;
      column[k] = rest / r[k]![k]!;
      sum[k]! += column[k]! * column[k]!;
    }
  }
  return sum.map(Math.sqrt);
}

/**
 * Fits a curve by least squares: Levenberg's damping with Marquardt's scale, solved by Householder reflections, so that
 * the normal equations never square the condition. The libraries looked at form them and take one-sided derivatives; on
 * NIST's nonlinear reference problems that costs half the digits.
 * Source: J. J. Moré (1978), The Levenberg–Marquardt algorithm, Lecture Notes in Mathematics 630 (from memory).
 * @throws RangeError when there are fewer points than parameters, or the curve is not finite at the start
 */
export function leastSquares(fit: CurveFit): FittedCurve {
  const m = fit.x.length;
  const n = fit.start.length;
  if (m < n) throw new RangeError(`read ${m} points; a fit of ${n} parameters needs at least as many.`);
  const weights = Float64Array.from({ length: m }, (_, i) => 1 / (fit.sd?.[i] ?? 1));
  const residuals = (at: Float64Array): Float64Array =>
    Float64Array.from({ length: m }, (_, i) => weights[i]! * (fit.y[i]! - fit.curve(fit.x[i]!, at)));
  const squares = (of: Float64Array): number => of.reduce((sum, value) => sum + value * value, 0);
  let parameters = Float64Array.from(fit.start);
  let rest = residuals(parameters);
  let sumOfSquares = squares(rest);
  if (!Number.isFinite(sumOfSquares)) throw new RangeError('the curve is not finite at the start.');
  let damping = 1e-3;
  let steps = 0;
  let still = 0;
  while (steps < MOST_STEPS && still < 3) {
    steps++;
    const columns = jacobian(fit, parameters, weights);
    const scale = columns.map((column) => Math.sqrt(squares(column)) || 1);
    const damped = columns.map((column, k) => {
      const longer = new Float64Array(m + n);
      longer.set(column);
      longer[m + k] = Math.sqrt(damping) * scale[k]!;
      return longer;
    });
    const right = new Float64Array(m + n);
    right.set(rest);
    const { s } = householder(damped, right);
    const next = parameters.map((value, k) => value + s[k]!);
    const nextRest = residuals(next);
    const nextSum = squares(nextRest);
    const small = s.every((value, k) => Math.abs(value) <= SETTLED * (Math.abs(parameters[k]!) + SETTLED));
    if (nextSum <= sumOfSquares) {
      parameters = next;
      rest = nextRest;
      sumOfSquares = nextSum;
      damping = Math.max(1e-14, damping / 10);
    } else damping = Math.min(1e12, damping * 10);
    still = small ? still + 1 : 0;
  }
  const { r } = householder(jacobian(fit, parameters, weights), rest.slice());
  const residualSd = m > n ? Math.sqrt(sumOfSquares / (m - n)) : 0;
  return {
    parameters,
    sd: rootDiagonal(r).map((root) => root * residualSd),
    sumOfSquares,
    residualSd,
    steps,
  };
}
