import { expect, test } from 'vitest';
import { hotPressures } from '../../../test/outside/air/hot-pressure.ts';
import { moistAir } from '../../../test/outside/air/moist-air.ts';
import { compressibility, saturationPressure, vapourFraction } from '../src/air/moist.ts';
import { hotPressure } from '../src/tyre/pressure.ts';

test('hot pressure follows the ideal gas law on absolute pressures', () => {
  expect(hotPressures.length).toBe(4);
  for (const [cold, unit, low, high, outside, , hot] of hotPressures) {
    const found = hotPressure(cold * unit, low + 273.15, high + 273.15, 1, outside) / unit;
    expect(Math.abs(found / hot - 1)).toBeLessThan(1e-12);
  }
});

test('a larger hot volume and a lower barometer give what the gas law says', () => {
  // Derived: (41,400 + 95,000) · 330/(300 · 1.02) − 95,000 = 52,098.04 Pa.
  expect(hotPressure(41400, 300, 330, 1.02, 95e3)).toBeCloseTo(52098.0392, 3);
  // Nothing changes: nothing changes.
  expect(hotPressure(41400, 300, 300, 1, 95e3)).toBeCloseTo(41400, 9);
});

test('saturation pressure, vapour and compressibility are CIPM-2007’s', () => {
  expect(moistAir.length).toBe(5);
  for (const [celsius, pressure, humidity, saturation, vapour, factor] of moistAir) {
    const temperature = celsius + 273.15;
    expect(Math.abs(saturationPressure(temperature) / saturation - 1)).toBeLessThan(1e-10);
    expect(Math.abs(vapourFraction(temperature, pressure, humidity) - vapour)).toBeLessThan(1e-11);
    expect(Math.abs(compressibility(temperature, pressure, vapour) / factor - 1)).toBeLessThan(1e-10);
  }
});
