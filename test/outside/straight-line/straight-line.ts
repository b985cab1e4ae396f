/** Launch acceleration m/s², drag over mass 1/m, speed where power takes over m/s; speed at 201.168 and 402.336 m. */
export const integratedRuns = [
  [22, 2.6e-4, 45, 80.677451674227, 100.49903498426],
  [30, 3.1e-4, 70, 101.81779423002, 127.85063991849],
  [15, 5e-4, 52, 72.428074960708, 89.791676701503],
] as const;

/** Mass kg, acceleration m/s², centre of gravity m, wheelbase m, load moved to the rear axle N. */
export const loadTransfers = [
  [1200, 9.80665, 0.5, 2.5, 2353.596],
  [1100, 19.6133, 0.45, 2.65, 3663.61641509],
] as const;

/** Air density kg/m³, speed m/s, dynamic pressure Pa. */
export const dynamicPressures = [
  [1.225, 50, 1531.25],
  [1.225, 116.2304, 8274.572354048],
] as const;

/** Single figures, SI. */
export const straightLine = {
  quarterMile: 402.336,
  constantPower: { specificPower: 200, speed: 62.2653903012 },
  constantAcceleration: { acceleration: 20, speed: 126.859922749 },
  /** 50 % of the weight on the rear axle, wheelbase 2.65 m, centre of gravity 0.45 m up. */
  frontLift: { rearShare: 0.5, wheelbase: 2.65, cgHeight: 0.45, accelerationOverG: 2.94444444444 },
  /** Rear axle of 1,100 kg at 2 g with the same sizes, N. */
  launchRearAxle: 9057.27391509,
};
