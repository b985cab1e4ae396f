/** One inch and one sixteenth of it, m: the steps in which a shop reads and cuts. */
export const INCH = 0.0254;
export const SIXTEENTH = INCH / 16;

/** The least multiple of `step` that is not below `value`; a rounding error of the last digits does not add a step. */
export function ceilTo(value: number, step: number): number {
  return Math.ceil(value / step - 1e-9) * step;
}
