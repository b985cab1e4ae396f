/** Half-width of the lobe allowance, rad: 40°. */
export const LOBE_HALF_WIDTH = (40 * Math.PI) / 180;

/**
 * Lobe allowance at a hub angle, m, ≥ 0: a raised cosine of the given height at its middle.
 * Stands for what a band on springs leaves out (sidewall wind-up, thrown tread, waves). A model allowance after
 * common practice, no source; rub marks correct it.
 * @param angle  hub angle from straight up, forward positive, rad
 * @param height  m
 * @param middle  rad
 */
export function lobeAllowance(angle: number, height: number, middle: number): number {
  const away = Math.abs(angle - middle);
  return away < LOBE_HALF_WIDTH ? height * 0.5 * (1 + Math.cos((Math.PI * away) / LOBE_HALF_WIDTH)) : 0;
}
