import { choleskyFactor, isSpread } from '@tubgap/statistics';
import type { Case, CaseTyre, Follows, UncertainInput } from '../case.ts';
import { withInputs } from '../case-inputs.ts';
import { bookWords } from './book-words.ts';
import { exactLawWords } from './law-words.ts';
import { plainLaw } from './learned-case.ts';
import type { MovedPrior, ShopPriors } from './shop-priors.ts';

/** What the book says of a tyre: of its own row of the catalogue, or else of any tyre that is built as it is. */
const priorsOf = (tyre: CaseTyre, { tyres, constructions }: ShopPriors): readonly MovedPrior[] =>
  tyres.find((one) => one.tyre === tyre.tyre)?.inputs ??
  constructions.find(({ construction }) => construction === tyre.construction)?.inputs ??
  [];

/** Whether an input stands on the very prior that the book started from: what a case says itself is its own. */
const standsOnPrior = (input: UncertainInput, { startedFrom }: MovedPrior): boolean =>
  input.source !== 'case' && isSpread(input.law) && exactLawWords(input.law) === startedFrom;

/**
 * How the inputs taken over hang together when some that were learned with them are left out: the factor of their own
 * part of the correlations.
 */
function sharesAmong(priors: readonly MovedPrior[], taken: readonly number[]): Float64Array[] {
  const correlation = (a: number, b: number): number =>
    a === b
      ? 1
      : priors[a]!.together.reduce((sum, share, k) => sum + share * (priors[b]!.together[k] ?? 0), 0);
  return choleskyFactor(taken.map((a) => taken.map((b) => correlation(a, b))));
}

/**
 * A case with its shop's priors in place of the program's. Only what stands on the program's prior is replaced; what the
 * case says itself stays, and is named.
 * @param file  name of the file, as bases call it
 */
export function bookCase(source: Case, priors: ShopPriors, file: string): Case {
  const own: string[] = [];
  const tyres: string[] = [];
  let inputs = 0;
  const updated = new Map<string, Map<string, UncertainInput>>();
  for (const tyre of source.tyres) {
    if (updated.has(tyre.tyre)) continue;
    const moved = priorsOf(tyre, priors);
    const taken = moved.flatMap((prior, k) => (standsOnPrior(tyre.inputs[prior.input], prior) ? [k] : []));
    // A row of the catalogue has its own middle: what the book says of other rows does not speak of it.
    const left = moved.filter(
      (prior, k) => !taken.includes(k) && tyre.inputs[prior.input].source !== 'catalogue',
    );
    own.push(...left.map(({ label }) => `${label} of ${tyre.tyre}`));
    if (taken.length > 0) tyres.push(tyre.tyre);
    inputs += taken.length;
    const factor = sharesAmong(moved, taken);
    const ofTyre = taken.map((k, row): [string, UncertainInput] => {
      const { input, middle, spreadBelow, spreadAbove, after } = moved[k]!;
      const follows = taken.slice(0, row + 1).flatMap((other, column): Follows[] => {
        const share = factor[row]![column]!;
        return share === 0 ? [] : [{ tyre: tyre.tyre, input: moved[other]!.input, share }];
      });
      const first = tyre.inputs[input];
      return [
        input,
        {
          ...first,
          law: {
            kind: 'updated',
            from: plainLaw(first.law),
            middle,
            below: spreadBelow,
            above: spreadAbove,
          },
          source: 'case',
          basis: `${file}, from the shop's book: ${bookWords(priors.from)}`,
          shown: `from the shop's book: ${after}, one value per car`,
          ...(follows.length > 1 ? { follows } : {}),
        },
      ];
    });
    updated.set(tyre.tyre, new Map(ofTyre));
  }
  const { book: name, date, from } = priors;
  return {
    ...withInputs(source, (input, which, tyre) => updated.get(tyre ?? '')?.get(which) ?? input),
    book: {
      file,
      name,
      date,
      cars: from.cars,
      unmarkedRuns: from.unmarkedRuns,
      marks: from.marks,
      tyres,
      inputs,
      own,
    },
  };
}
