import { MOLAR_GAS_CONSTANT } from '../constants.ts';

const DRY_MOLAR_MASS = 28.96546e-3;

/**
 * Saturation vapour pressure over water, Pa, at T in kelvin.
 * Source: CIPM-2007, Picard et al., Metrologia 45 (2008) 149, eq. A1.1.
 */
export function saturationPressure(temperature: number): number {
  return Math.exp(
    1.2378847e-5 * temperature * temperature -
      1.9121316e-2 * temperature +
      33.93711047 -
      6.3431645e3 / temperature,
  );
}

/** Mole fraction of water vapour, 1. Source: CIPM-2007, enhancement factor included. */
export function vapourFraction(temperature: number, pressure: number, humidity: number): number {
  const celsius = temperature - 273.15;
  const enhancement = 1.00062 + 3.14e-8 * pressure + 5.6e-7 * celsius * celsius;
  return (humidity * enhancement * saturationPressure(temperature)) / pressure;
}

/** Compressibility of moist air, 1. Source: CIPM-2007, eq. A1.4. */
export function compressibility(temperature: number, pressure: number, vapour: number): number {
  const t = temperature - 273.15;
  const ratio = pressure / temperature;
  const virial =
    1.58123e-6 -
    2.9331e-8 * t +
    1.1043e-10 * t * t +
    (5.707e-6 - 2.051e-8 * t) * vapour +
    (1.9898e-4 - 2.376e-6 * t) * vapour * vapour;
  return 1 - ratio * virial + ratio * ratio * (1.83e-11 - 0.765e-8 * vapour * vapour);
}

/**
 * Density of moist air, kg/m³.
 * Source: CIPM-2007 (Picard et al., Metrologia 45 (2008) 149) with 400 ppm of carbon dioxide.
 * The formula's own range is 600 to 1,100 hPa and 15 to 27 °C; outside it, as on a hot strip, it stays within a
 * few parts in ten thousand of the two-gas ideal law.
 * @param temperature  K
 * @param pressure  absolute station pressure, Pa
 * @param humidity  relative humidity, 0 to 1
 */
export function moistAirDensity(temperature: number, pressure: number, humidity: number): number {
  const vapour = vapourFraction(temperature, pressure, humidity);
  const z = compressibility(temperature, pressure, vapour);
  return ((pressure * DRY_MOLAR_MASS) / (z * MOLAR_GAS_CONSTANT * temperature)) * (1 - 0.378 * vapour);
}
