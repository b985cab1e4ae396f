import { CONSTRUCTIONS, TYRE_INPUTS } from '@tubgap/core';
import { z } from 'zod';
import { areShares, movedFields, samplingSchema } from './learned-file.ts';
import { readSealed, type SealedFormat, sealedYaml } from './sealed-yaml.ts';

/** Version of the file's layout; a reader refuses another. */
export const SHOP_PRIORS_VERSION = 1;

const count = z.number().int().nonnegative();

const movedPrior = z.strictObject({
  /** Name among the core's inputs of a tyre. */
  input: z.enum(TYRE_INPUTS),
  label: z.string(),
  /** The program's prior that it started from, by `exactLawWords`. */
  startedFrom: z.string(),
  /** In the shop's units, median and the range that holds nine in ten. */
  before: z.string(),
  after: z.string(),
  ...movedFields,
});

const priorsSchema = z.strictObject({
  format: z.literal('tubgap shop priors'),
  version: z.literal(SHOP_PRIORS_VERSION),
  caution: z.string(),
  madeBy: z.string(),
  book: z.string(),
  invented: z.boolean(),
  /** Of the newest entry that it rests on, YYYY-MM-DD; empty where no entry has one. */
  date: z.string(),
  seed: z.number().nonnegative(),
  /** What it rests on. */
  from: z.strictObject({
    cars: count,
    unmarkedRuns: count,
    marks: count,
    /** Of every file that was read, in the order of their names. */
    sha256: z.string(),
  }),
  sampling: samplingSchema,
  /** What is believed of one more tyre of a catalogue's row, and how many of them that rests on. */
  tyres: z.array(
    z.strictObject({
      tyre: z.string(),
      construction: z.enum(CONSTRUCTIONS),
      tyres: count,
      inputs: z.array(movedPrior),
    }),
  ),
  /** The same of a row that the book has never seen, by how it is built, and how many rows that rests on. */
  constructions: z.array(
    z.strictObject({ construction: z.enum(CONSTRUCTIONS), models: count, inputs: z.array(movedPrior) }),
  ),
});

/** What a shop's cars taught of tyres that no car has run yet. */
export type ShopPriors = z.output<typeof priorsSchema>;
export type MovedPrior = z.output<typeof movedPrior>;

const FORMAT: SealedFormat<typeof priorsSchema> = {
  format: 'tubgap shop priors',
  version: SHOP_PRIORS_VERSION,
  called: "file of a shop's priors",
  head: `# What the cars of a shop's book taught of their tyres. Written by the program; a case names it in its field "book".
# Change nothing by hand: put entries into the book and learn again instead.
`,
  schema: priorsSchema,
};

/** A shop's priors as text: the same content gives the same bytes. */
export const shopPriorsText = (priors: ShopPriors): string => sealedYaml(FORMAT, priors);

/** How such a file begins, after its remarks. */
const FIRST_LINE = /^format: tubgap shop priors$/m;
/** Whether a text is meant for a shop's priors, sound or not. */
export const isShopPriors = (text: string): boolean => FIRST_LINE.test(text);

/** A shop's priors from a file's text, or why it is none. */
export function readShopPriors(text: string): ShopPriors | { problem: string } {
  const read = readSealed(FORMAT, text);
  if ('problem' in read) return read;
  for (const part of ['tyres', 'constructions'] as const) {
    const wrong = read[part].findIndex(({ inputs }) => inputs.some((input, i) => !areShares(input, i)));
    if (wrong >= 0) {
      return {
        problem: `${part}.${wrong}.inputs: some "together" are no shares of the inputs listed before`,
      };
    }
  }
  return read;
}
