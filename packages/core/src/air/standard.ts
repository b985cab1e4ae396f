import { within } from '../check.ts';
import { STANDARD_GRAVITY } from '../constants.ts';

const SEA_LEVEL_TEMPERATURE = 288.15;
const SEA_LEVEL_PRESSURE = 101325;
const LAPSE = 0.0065;
/** Gas constant of dry air, J/(kg·K): R* / M of the 1976 standard. */
const DRY_AIR = 8314.32 / 28.9644;
const EXPONENT = STANDARD_GRAVITY / (DRY_AIR * LAPSE);
const EARTH_RADIUS = 6356766;

export interface StandardAir {
  temperature: number;
  pressure: number;
  density: number;
}

/**
 * Temperature (K), pressure (Pa) and density (kg/m³) of the standard atmosphere.
 * Source: US Standard Atmosphere 1976, lowest layer.
 * @param altitude  geopotential metres, −1,000 to 11,000; outside: RangeError
 */
export function standardAir(altitude: number): StandardAir {
  within('altitude', altitude, -1000, 11000, 'm');
  const temperature = SEA_LEVEL_TEMPERATURE - LAPSE * altitude;
  const pressure = SEA_LEVEL_PRESSURE * (temperature / SEA_LEVEL_TEMPERATURE) ** EXPONENT;
  return { temperature, pressure, density: pressure / (DRY_AIR * temperature) };
}

/**
 * Geopotential altitude, m, of a geometric one in m, both above sea level.
 * Source: US Standard Atmosphere 1976 (its earth radius 6,356,766 m).
 */
export function geopotential(geometric: number): number {
  return (EARTH_RADIUS * geometric) / (EARTH_RADIUS + geometric);
}

/**
 * Density altitude, m: the geopotential height at which the standard atmosphere has this density.
 * @param density  kg/m³, 0.3 to 1.6; outside: RangeError
 */
export function densityAltitude(density: number): number {
  within('air density', density, 0.3, 1.6, 'kg/m³');
  const seaLevel = SEA_LEVEL_PRESSURE / (DRY_AIR * SEA_LEVEL_TEMPERATURE);
  return (SEA_LEVEL_TEMPERATURE / LAPSE) * (1 - (density / seaLevel) ** (1 / (EXPONENT - 1)));
}
