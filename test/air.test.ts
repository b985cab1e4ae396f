import { densityAltitude, geopotential, moistAirDensity, standardAir } from '@tubgap/core';
import { expect, test } from 'vitest';
import { moistAir, twoIdealGases } from './outside/air/moist-air.ts';
import { densityAltitudes, standardAtmosphere } from './outside/air/standard-atmosphere.ts';

const off = (found: number, expected: number): number => Math.abs(found / expected - 1);

test('the standard atmosphere is that of 1976', () => {
  expect(standardAtmosphere.length).toBe(6);
  for (const [altitude, kind, temperature, pressure, density] of standardAtmosphere) {
    const air = standardAir(kind === 'geometric' ? geopotential(altitude) : altitude);
    // 12 digits printed.
    expect(off(air.temperature, temperature)).toBeLessThan(1e-11);
    expect(off(air.pressure, pressure)).toBeLessThan(1e-11);
    expect(off(air.density, density)).toBeLessThan(1e-11);
  }
});

test('moist air has the density of CIPM-2007', () => {
  expect(moistAir.length).toBe(5);
  for (const [celsius, pressure, humidity, , , , density] of moistAir) {
    // The paper rounds its factor to 7 digits, we keep molar mass over gas constant.
    expect(off(moistAirDensity(celsius + 273.15, pressure, humidity), density)).toBeLessThan(1e-7);
  }
});

test('moist air is within 5 parts in 10,000 of two ideal gases, also hot and humid', () => {
  expect(twoIdealGases.length).toBe(4);
  for (const [celsius, pressure, humidity, density] of twoIdealGases) {
    expect(off(moistAirDensity(celsius + 273.15, pressure, humidity), density)).toBeLessThan(5e-4);
  }
});

test('humid air is lighter than dry air, warm lighter than cold, thin lighter than dense', () => {
  for (const celsius of [5, 15, 25, 35, 43]) {
    const at = (humidity: number, kelvin = celsius + 273.15, pressure = 98e3): number =>
      moistAirDensity(kelvin, pressure, humidity);
    expect(at(0.5)).toBeLessThan(at(0));
    expect(at(1)).toBeLessThan(at(0.5));
    expect(at(0.5, celsius + 274.15)).toBeLessThan(at(0.5));
    expect(at(0.5, celsius + 273.15, 97e3)).toBeLessThan(at(0.5));
  }
});

test('density altitude is the height with that density in the standard atmosphere, and the way back', () => {
  expect(densityAltitudes.length).toBe(5);
  for (const [density, altitude] of densityAltitudes) {
    // 9 to 12 digits of density.
    expect(off(densityAltitude(density), altitude)).toBeLessThan(1e-7);
  }
  for (const altitude of [-500, 0, 700, 2500, 9000]) {
    expect(Math.abs(densityAltitude(standardAir(altitude).density) - altitude)).toBeLessThan(1e-8);
  }
});

test('air that no track has is refused with what is allowed', () => {
  expect(() => standardAir(20e3)).toThrow('altitude is 20000 m; allowed is -1000 to 11000 m');
  expect(() => standardAir(-2000)).toThrow('altitude is -2000 m; allowed is -1000 to 11000 m');
  expect(() => densityAltitude(Number.NaN)).toThrow('air density is NaN kg/m³; allowed is 0.3 to 1.6 kg/m³');
});
