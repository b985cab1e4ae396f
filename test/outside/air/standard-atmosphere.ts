/** Altitude m, whether it is geopotential, K, Pa, kg/m³. */
export const standardAtmosphere = [
  [0, 'geopotential', 288.15, 101325, 1.22499915588771],
  [500, 'geopotential', 284.9, 95460.8393423, 1.16726805524],
  [1000, 'geopotential', 281.65, 89874.5705022, 1.11164181169],
  [1000, 'geometric', 281.651022372, 89876.2851873, 1.11165898506],
  [2000, 'geopotential', 275.15, 79495.2155105, 1.00648956092],
  [2000, 'geometric', 275.154088844, 79501.4246417, 1.00655321698],
] as const;

/** Air density kg/m³, geopotential height of the standard atmosphere with that density m. */
export const densityAltitudes = [
  [1.14549247694, 693.513602436],
  [1.03280196689, 1742.53397113],
  [0.96882487919, 2377.66202945],
  [1.093774517, 1164.66020663],
  [1.11164181168774, 1000],
] as const;
