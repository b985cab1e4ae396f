import { expect, test } from 'vitest';
import {
  DEGREE,
  FOOT,
  HORSEPOWER,
  INCH,
  KMH,
  MM_PER_INCH,
  MPH,
  POUND,
  POUND_FORCE,
  PSI,
  SIXTEENTH,
  STANDARD_GRAVITY,
  UNITS,
} from '../src/index.ts';

// NIST SP 811 (2008), appendix B.8: conversion factors to SI as printed, exact ones (bold there) to all their digits, the
// others to seven. Tolerance: half of the last digit printed; none for the exact ones.
const PRINTED = [
  ['inch', INCH, 2.54e-2, 0],
  ['foot', FOOT, 3.048e-1, 0],
  ['mile per hour', MPH, 4.4704e-1, 0],
  ['kilometer per hour', KMH, 2.777778e-1, 5e-8],
  ['pound (avoirdupois)', POUND, 4.5359237e-1, 0],
  ['acceleration of free fall, standard', STANDARD_GRAVITY, 9.80665, 0],
  ['pound-force', POUND_FORCE, 4.448222, 5e-7],
  ['pound-force per square inch', PSI, 6.894757e3, 5e-4],
  ['horsepower (550 ft·lbf/s)', HORSEPOWER, 7.456999e2, 5e-5],
  ['degree', DEGREE, 1.745329e-2, 5e-9],
  [
    'inch of mercury, conventional',
    UNITS.pressure.find(({ name }) => name === 'inHg')!.factor,
    3.386389e3,
    5e-4,
  ],
] as const;

test('factors are those of NIST SP 811', () => {
  expect(PRINTED).toHaveLength(11);
  for (const [name, factor, printed, within] of PRINTED) {
    expect(Math.abs(factor - printed), name).toBeLessThanOrEqual(within);
  }
});

test('factors agree with one another by definition', () => {
  expect(12 * INCH).toBeCloseTo(FOOT, 15);
  expect((5280 * FOOT) / 3600).toBeCloseTo(MPH, 15);
  expect(16 * SIXTEENTH).toBe(INCH);
  expect(MM_PER_INCH / 1000).toBe(INCH);
  expect(360 * DEGREE).toBe(2 * Math.PI);
});
