import { normalQuantile } from '@tubgap/statistics';
import { INCH } from '@tubgap/units';
import { outsideNineTenths, rootMeanSquare } from '../test/calibration.ts';
import { ALL, CHEAP, type ShopTwist } from '../test/invented-shop.ts';
import { type ShopFit, shopFit } from '../test/shop-calibration.ts';

/**
 * Holds a shop's book against invented shops of 3 to 12 cars at length, or of 19, which foretell their twentieth:
 * npx tsx scripts/calibrate-shops.ts [plain|tape|wrong|twentieth|all] [shops] [first].
 * Prints how often the truth lies outside the central nine tenths (1 in 10), how its ranks fill ten bins, how unequal those
 * are, how wide the truth lies, and the height asked for the next car with its risk, with the book and without.
 */
const [which = 'plain', shops = '100', first = '0'] = process.argv.slice(2);
const TWISTS: Record<string, ShopTwist> = {
  plain: {},
  /** A quarter of an inch too much on every rollout. */
  tape: { tape: 0.25 * INCH },
  wrong: { wrongCar: 1.6 },
  twentieth: { cars: 19 },
  all: { template: ALL },
};
/**
 * Ranks are uniform where this stays below it 19 times in 20. Source: NIST/SEMATECH e-Handbook of Statistical Methods,
 * 1.3.6.7.4, chi-square of nine degrees of freedom.
 */
const UNEQUAL_BINS = 16.919;
const unequal = (bins: readonly number[]): number => {
  const even = fits.length / bins.length;
  return bins.reduce((sum, bin) => sum + (bin - even) ** 2 / even, 0);
};
const twist = { template: CHEAP, models: ['slick-a', 'slick-b'], ...TWISTS[which] };
const fits: ShopFit[] = [];
const count = Number(shops);
const mean = (of: (fit: ShopFit) => number): number =>
  fits.reduce((sum, fit) => sum + of(fit), 0) / fits.length;
for (let n = 0; n < count; n++) {
  fits.push(shopFit(Number(first) + n, { pilot: 50, draws: 120 }, twist));
  if ((n + 1) % 10 !== 0 && n + 1 !== count) continue;
  console.log(`${n + 1} shops, ${mean(({ cars }) => cars).toFixed(1)} cars each`);
  for (const what of ['growth', 'height', 'common', 'within'] as const) {
    const places = fits.map((fit) => fit[what]);
    const outside = outsideNineTenths(places);
    const bins = Array.from(
      { length: 10 },
      (_, b) => places.filter((place) => Math.min(9, Math.floor(10 * place)) === b).length,
    );
    // Of numbers that say neither too much nor too little it is 1, give or take 1/√(2n).
    const width = rootMeanSquare(places.map(normalQuantile));
    console.log(
      `  ${what}: outside nine tenths ${outside} (${((100 * outside) / fits.length).toFixed(0)} %), ranks ${bins.join(' ')}, chi-square ${unequal(bins).toFixed(1)} (below ${UNEQUAL_BINS} 19 times in 20), width ${width.toFixed(2)}`,
    );
  }
  const inches = (height: number): string => (height / INCH).toFixed(3);
  console.log(
    `  asked ${inches(mean(({ asked }) => asked.book))} in with, ${inches(mean(({ asked }) => asked.prior))} in without; a run needs more ${mean(({ risk }) => risk.book).toExponential(2)} with, ${mean(({ risk }) => risk.prior).toExponential(2)} without`,
  );
  const percent = (share: number): string => `${(100 * share).toFixed(2)} %`;
  console.log(
    `  next cars of which more runs than are accepted need more: ${percent(mean(({ over }) => over.book))} with, ${percent(mean(({ over }) => over.prior))} without`,
  );
}
