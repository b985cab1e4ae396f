/** Cold gauge pressure, its unit in Pa, °C when set, °C hot, Pa outside when set and when hot, hot gauge pressure. */
export const hotPressures = [
  [6, 6894.757293168361, 20, 60, 101325, 101325, 8.82393979539668],
  [4.5, 6894.757293168361, 15, 40, 101325, 101325, 6.16544757726127],
  [20, 6894.757293168361, 20, 80, 101325, 101325, 27.1013369487662],
  [220, 1000, 20, 50, 101325, 101325, 252.883336176019],
] as const;
