import { type CommonPrior, SHOP_PRIORS_VERSION, type ShopPriors } from '@tubgap/casefile';
import type { CommonPriors, ShopPriors as FoundPriors, TapeError, TyrePriors } from '@tubgap/evidence';
import { figuresIn, type LengthUnits } from '@tubgap/units';
import { bookDigest } from './book-cars.ts';
import { countsIn, countsOf } from './counts.ts';
import type { Book } from './read-book.ts';

/** Name under which cases know the file unless the shop gives it another. */
export const PRIORS_FILE = 'shop-priors.yaml';

const movedOf = ({ inputs }: TyrePriors): ShopPriors['tyres'][number]['inputs'] =>
  inputs.map(({ startedFrom, input, ...rest }) => ({
    ...rest,
    input: input as ShopPriors['tyres'][number]['inputs'][number]['input'],
    startedFrom: startedFrom[0]!.law,
  }));

/** What a shop's priors rest on: cars of which something was seen. */
export function groundOf({ cars }: Pick<Book, 'cars'>): ShopPriors['from'] {
  const seen = cars.filter((car) => {
    const { readings, unmarkedRuns, marks } = countsOf(car);
    return readings + unmarkedRuns + marks > 0;
  });
  const { unmarkedRuns, marks } = countsIn(cars);
  return { cars: seen.length, unmarkedRuns, marks, sha256: bookDigest(seen) };
}

/** '0.03 in (−0.05 to 0.11)': what a tape reads too much. */
export const tapeWords = ({ low, middle, high }: TapeError, units: LengthUnits): string => {
  const text = (value: number): string => `${value < 0 ? '−' : ''}${figuresIn(units).fine(Math.abs(value))}`;
  return `${text(middle)} (${text(low)} to ${text(high)})`;
};

/** What cars of the shop, tubs of its builder and readings of its tape have in common, as the file keeps it. */
function commonOf(
  { cars }: Book,
  { common, tapes }: FoundPriors,
): Pick<ShopPriors, 'shop' | 'builders' | 'tapes'> {
  const inputsOf = (inputs: CommonPriors['inputs']): CommonPrior[] =>
    inputs.map(({ input, ...rest }) => ({ ...rest, input: input as CommonPrior['input'] }));
  const shop = common.find(({ builder }) => builder === undefined);
  const builders = common.flatMap(({ builder, cars, inputs }) =>
    builder === undefined ? [] : [{ builder, cars, inputs: inputsOf(inputs) }],
  );
  const units = cars[0]?.source.units ?? 'inch';
  return {
    ...(shop && { shop: { cars: shop.cars, inputs: inputsOf(shop.inputs) } }),
    ...(builders.length > 0 && { builders }),
    ...(tapes.length > 0 && {
      tapes: tapes.map((one) => ({ tape: one.tape, cars: one.cars, readsTooMuch: tapeWords(one, units) })),
    }),
  };
}

/** The file that cases name, of what a book found. A model that is not narrowed keeps its place, with nothing in it. */
export function priorsFile(book: Book, found: FoundPriors, madeBy: string): ShopPriors {
  const { sampling, seed, models, constructions } = found;
  type Construction = ShopPriors['tyres'][number]['construction'];
  return {
    format: 'tubgap shop priors',
    version: SHOP_PRIORS_VERSION,
    caution:
      "Tyre contact at speed can kill. What other cars of the shop taught is no measurement of this one; the sanctioning body's rules, the tyre maker's limits and a qualified chassis builder come first.",
    madeBy,
    book: book.book.name,
    invented: book.book.invented,
    date: countsIn(book.cars).newest,
    seed,
    from: groundOf(book),
    sampling: {
      method: 'partial pooling: slice sampling of cars, groups and their spreads',
      chains: sampling.chains,
      draws: sampling.draws,
      worstRHat: Number(sampling.worstRHat.toFixed(4)),
      leastEffectiveDraws: Math.round(sampling.leastEffectiveDraws),
      widened: Number(Math.max(1, ...models.map(({ widened }) => widened)).toFixed(4)),
    },
    tyres: models.map((one) => ({
      tyre: one.model!,
      construction: one.construction as Construction,
      tyres: one.cars,
      inputs: movedOf(one),
    })),
    constructions: constructions.map((one) => ({
      construction: one.construction as Construction,
      models: models.filter(({ construction }) => construction === one.construction).length,
      inputs: movedOf(one),
    })),
    ...commonOf(book, found),
  };
}
