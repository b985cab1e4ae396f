/** Density kg/m³, speed m/s, hoop stress of a thin rotating ring Pa. */
export const hoopStresses = [
  [1200, 50, 3.0e6],
  [1200, 100, 1.2e7],
  [1200, 116.2304, 1.6211407060992e7],
  [7850, 100, 7.85e7],
] as const;

/** n, load per length of rim N/m at which a ring of EI = 2·10¹¹ · 0.01³/12 N·m², R = 1 m collapses. */
export const collapseLoads = [
  [2, 50000],
  [3, 133333.33333333334],
  [4, 250000],
] as const;

/** R m, EI N·m², mass per length kg/m, n, in-plane bending frequency Hz. */
const barInertia = (2e11 * Math.PI * 0.1 ** 4) / 64;
const barMass = (8000 * Math.PI * 0.1 ** 2) / 4;
const flatInertia = (1.85e11 * 0.05 * 0.048 ** 3) / 12;
const flatMass = 7800 * 0.05 * 0.048;
export const ringFrequencies = [
  [1, barInertia, barMass, 2, 53.3821907563],
  [1, barInertia, barMass, 3, 150.987636313],
  [1, barInertia, barMass, 4, 289.505577003],
  [1, barInertia, barMass, 5, 468.19278491],
  [0.369, flatInertia, flatMass, 2, 211.652218363],
  [0.369, flatInertia, flatMass, 3, 598.642875429],
] as const;

/** Ring pinched by two opposed loads F: change of the loaded and of the other diameter, over F R³/EI. */
export const pinched = { shortening: 0.148778391029867, lengthening: 0.136619772367581 };
