/** Straight beam on a Winkler foundation: EI N·m², k N/m², load N. */
export const beam = { bending: 1666666.6666666667, foundation: 1e7, load: 1e5 };

/** Distance from the load m, deflection m. */
export const beamDeflections = [
  [0, 0.0055334095985],
  [0.5, 0.00437920132685],
  [1, 0.00245510880626],
  [2, 0.000121786704924],
] as const;

/** Inextensible rings on radial springs: EI N·m², R m, k N/m², load N. */
export const rings = {
  R1: { bending: 2, radius: 0.3, foundation: 6e5, load: 1000 },
  R2: { bending: 50, radius: 0.4381, foundation: 2e5, load: 5000 },
} as const;

/** Ring, angle from the load °, deflection in the load's direction m. */
export const ringDeflections = [
  ['R1', 0, 0.0130445134000118],
  ['R1', 15, 0.00374223456687312],
  ['R1', 30, -0.00129484281716459],
  ['R1', 90, -0.000877920344409089],
  ['R1', 180, -0.000883836154383731],
  ['R2', 0, 0.06397684690015],
  ['R2', 30, 0.014733161556628],
  ['R2', 90, -0.0114143025812506],
  ['R2', 180, -0.008960877603054],
] as const;

/** Ring, amplitude of its rigid movement F/(πRk) m, whatever EI. */
export const rigidMovements = [
  ['R1', 0.00176838825658],
  ['R2', 0.0181642254156],
] as const;
