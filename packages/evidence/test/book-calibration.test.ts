import { describe, expect, it } from 'vitest';
import { outsideNineTenths } from './calibration.ts';
import type { ShopTwist } from './invented-shop.ts';
import { type ShopFit, shopFit } from './shop-calibration.ts';

const MODELS = ['slick-a', 'slick-b'];
const fitsOf = (first: number, count: number, twist: ShopTwist): ShopFit[] =>
  Array.from({ length: count }, (_, n) =>
    shopFit(first + n, { pilot: 40, draws: 80 }, { models: MODELS, ...twist }),
  );
const mean = (values: readonly number[]): number => values.reduce((sum, x) => sum + x, 0) / values.length;

/**
 * Shops of the priors, measured by the model and learned from together: the next car lies where the book says. At length:
 * scripts/calibrate-shops.ts.
 */
describe('books of ten shops of the priors', () => {
  const fits = fitsOf(1000, 10, {});

  it.each(['growth', 'height', 'common', 'within'] as const)(
    'hold the %s outside their central nine tenths one time in ten',
    (what) => {
      // Binomial, 10 of 0.1: 5 or more has a chance of 0.16 %.
      expect(outsideNineTenths(fits.map((fit) => fit[what]))).toBeLessThan(5);
    },
  );

  it('ask for less height than the first prior, and no more runs need more than is accepted', () => {
    const saved = fits.map(({ asked }) => asked.prior - asked.book);
    expect(mean(saved)).toBeGreaterThan(0.2 * 0.0254);
    // Accepted are 5e-4; over ten shops the mean is known within a factor of two or so.
    expect(mean(fits.map(({ risk }) => risk.book))).toBeLessThan(1.5e-3);
  });
});

// Binomial, 5 of 0.1: 3 or more has a chance of 0.9 %.
it.each([
  ['a tape that reads a quarter of an inch too much', 2000, { tape: 0.25 * 0.0254 }],
  ['a car that grows 1.6 times as much', 3000, { wrongCar: 1.6 }],
] as const)('%s makes a book no surer of the next car than it may be', (_, first, twist) => {
  const fits = fitsOf(first, 5, twist);
  expect(outsideNineTenths(fits.map(({ growth }) => growth))).toBeLessThan(3);
  expect(outsideNineTenths(fits.map(({ height }) => height))).toBeLessThan(3);
});
