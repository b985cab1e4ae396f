/**
 * Drop of the body at one rear wheel from rest, m, suspension compression positive: F/k down to full droop; beyond
 * the free travel s_f the stop's rate joins, u = s_f + (F − k s_f)/(k + k_s).
 * @param force  spring force above rest, N
 * @param wheelRate  k, N/m, > 0
 * @param bumpTravel  s_f, m, ≥ 0
 * @param stopRate  k_s, N/m, ≥ 0
 * @param droopTravel  m, ≥ 0
 */
export function bodyDrop(
  force: number,
  wheelRate: number,
  bumpTravel: number,
  stopRate: number,
  droopTravel: number,
): number {
  const free = force / wheelRate;
  if (free <= -droopTravel) return -droopTravel;
  if (free <= bumpTravel) return free;
  return bumpTravel + (force - wheelRate * bumpTravel) / (wheelRate + stopRate);
}
