import { choleskyFactor, isSpread } from '@tubgap/statistics';
import type { Case, CaseTyre, Follows, UncertainInput } from '../case.ts';
import { withInputs } from '../case-inputs.ts';
import { bookWords } from './book-words.ts';
import { exactLawWords } from './law-words.ts';
import { plainLaw } from './learned-case.ts';
import type { CommonPrior, MovedPrior, ShopPriors } from './shop-priors.ts';

/** Stands among the tyres for what the book says of the car itself and of how its tub is set out. */
export const OF_THE_CAR = 'the car';

/** What the book says of a tyre: of its own row of the catalogue, or else of any tyre that is built as it is. */
const priorsOf = (tyre: CaseTyre, { tyres, constructions }: ShopPriors): readonly MovedPrior[] =>
  tyres.find((one) => one.tyre === tyre.tyre)?.inputs ??
  constructions.find(({ construction }) => construction === tyre.construction)?.inputs ??
  [];

/** Whether an input stands on the very prior that the book started from: what a case says itself is its own. */
const standsOnPrior = (input: UncertainInput, startedFrom: string): boolean =>
  input.source !== 'case' && isSpread(input.law) && exactLawWords(input.law) === startedFrom;

/** Whether what the shop's cars have in common speaks of an input: by its prior, or by what the case states of it. */
const isSpokenOf = (input: UncertainInput, { startedFrom }: CommonPrior): boolean =>
  input.each === 'car' &&
  (startedFrom === undefined
    ? input.source === 'case' && isSpread(input.law)
    : standsOnPrior(input, startedFrom));

/**
 * How the inputs taken over hang together when some that were learned with them are left out: the factor of their own
 * part of the correlations.
 */
function sharesAmong(
  priors: readonly (MovedPrior | CommonPrior)[],
  taken: readonly number[],
): Float64Array[] {
  const correlation = (a: number, b: number): number =>
    a === b
      ? 1
      : priors[a]!.together.reduce((sum, share, k) => sum + share * (priors[b]!.together[k] ?? 0), 0);
  return choleskyFactor(taken.map((a) => taken.map((b) => correlation(a, b))));
}

/** How an input changes: by its own law and by which of the others it follows. */
type Change = (first: UncertainInput) => UncertainInput;

/** What becomes of the inputs that are taken over from one list, by their names. */
function changesOf(
  priors: readonly (MovedPrior | CommonPrior)[],
  taken: readonly number[],
  { ground, file, tyre }: { ground: ShopPriors['from']; file: string; tyre?: string },
): Map<string, Change> {
  const factor = sharesAmong(priors, taken);
  return new Map(
    taken.map((k, row): [string, Change] => {
      const { input, middle, spreadBelow, spreadAbove, after } = priors[k]!;
      const follows = taken.slice(0, row + 1).flatMap((other, column): Follows[] => {
        const share = factor[row]![column]!;
        const own = { input: priors[other]!.input, share };
        return share === 0 ? [] : [tyre === undefined ? own : { tyre, ...own }];
      });
      return [
        input,
        (first) => ({
          ...first,
          law: { kind: 'updated', from: plainLaw(first.law), middle, below: spreadBelow, above: spreadAbove },
          source: 'case',
          basis: `${file}, from the shop's book: ${bookWords(ground)}`,
          shown: `from the shop's book: ${after}, one value per car`,
          ...(follows.length > 1 ? { follows } : {}),
        }),
      ];
    }),
  );
}

/**
 * A case with its shop's priors in place of the program's. Only what stands on the program's prior is replaced; what the
 * case says itself stays, and is named. What the shop's own statements are off by together moves what a case states.
 * @param file  name of the file, as bases call it
 * @param builder  who sets the tub out; undefined where the case does not say
 */
export function bookCase(source: Case, priors: ShopPriors, file: string, builder?: string): Case {
  const own: string[] = [];
  const having: string[] = [];
  let inputs = 0;
  const ofTyres = new Map<string, Map<string, Change>>();
  for (const tyre of source.tyres) {
    if (ofTyres.has(tyre.tyre)) continue;
    const moved = priorsOf(tyre, priors);
    const taken = moved.flatMap((prior, k) =>
      standsOnPrior(tyre.inputs[prior.input], prior.startedFrom) ? [k] : [],
    );
    // A row of the catalogue has its own middle: what the book says of other rows does not speak of it.
    const left = moved.filter(
      (prior, k) => !taken.includes(k) && tyre.inputs[prior.input].source !== 'catalogue',
    );
    own.push(...left.map(({ label }) => `${label} of ${tyre.tyre}`));
    if (taken.length > 0) having.push(tyre.tyre);
    inputs += taken.length;
    ofTyres.set(tyre.tyre, changesOf(moved, taken, { ground: priors.from, file, tyre: tyre.tyre }));
  }
  const ofCar = new Map<string, Change>();
  const lists = [priors.shop, priors.builders?.find((one) => one.builder === builder)];
  for (const { inputs: moved } of lists.flatMap((list) => list ?? [])) {
    const taken = moved.flatMap((prior, k) => (isSpokenOf(source.car[prior.input], prior) ? [k] : []));
    inputs += taken.length;
    for (const [input, change] of changesOf(moved, taken, { ground: priors.from, file }))
      ofCar.set(input, change);
  }
  if (ofCar.size > 0) having.push(OF_THE_CAR);
  const { book: name, date, from } = priors;
  return {
    ...withInputs(source, (input, which, tyre) => {
      if (tyre !== undefined) return ofTyres.get(tyre)?.get(which)?.(input) ?? input;
      // A class of tyres that runs the car otherwise has a law of its own there, which hangs together with the car's.
      return isSpread(input.law) ? (ofCar.get(which)?.(input) ?? input) : input;
    }),
    book: {
      file,
      name,
      date,
      cars: from.cars,
      unmarkedRuns: from.unmarkedRuns,
      marks: from.marks,
      tyres: having,
      inputs,
      own,
    },
  };
}
