import { CAR_INPUTS, CONSTRUCTIONS, TYRE_INPUTS } from '@tubgap/core';
import { z } from 'zod';
import { areShares, movedFields, samplingSchema } from './learned-file.ts';
import { readSealed, type SealedFormat, sealDigest, sealedYaml } from './sealed-yaml.ts';

/** Version of the file's layout; a reader refuses another. */
export const SHOP_PRIORS_VERSION = 2;

const count = z.number().int().nonnegative();

const label = z.string().describe('What the input is.');
const startedFrom = z.string().describe("The program's prior that it started from, its numbers in SI.");
const before = z
  .string()
  .describe("In the shop's units, median and the range that holds nine in ten, before.");
const after = z.string().describe("In the shop's units, median and the range that holds nine in ten, after.");

const movedPrior = z.strictObject({
  input: z.enum(TYRE_INPUTS).describe("Name among the core's inputs of a tyre."),
  label,
  startedFrom,
  before,
  after,
  ...movedFields,
  apart: z
    .number()
    .min(0)
    .lt(1)
    .describe('Chance that a tyre stands apart from those that taught it: its law is then as it started.'),
});

const commonInput = z.strictObject({
  input: z.enum(CAR_INPUTS).describe("Name among the core's inputs of a car."),
  label,
  startedFrom: startedFrom
    .optional()
    .describe(
      'The program’s prior that it started from; left out: it holds of whatever law a case of the shop states itself.',
    ),
  before,
  after,
  ...movedFields,
});

/** What cars have in common: by how many of them, and input by input. */
const common = {
  cars: count.describe('Cars that it rests on.'),
  inputs: z.array(commonInput).describe('What moved, input by input.'),
};

const construction = z.enum(CONSTRUCTIONS).describe('How it is built.');

const priorsSchema = z.strictObject({
  format: z.literal('tubgap shop priors').describe("Marks the file as one of a shop's priors."),
  version: z.literal(SHOP_PRIORS_VERSION).describe('Layout of the file; a reader refuses another.'),
  caution: z.string().describe('What a reader must know to use it rightly.'),
  madeBy: z.string().describe('Program and version that wrote it.'),
  book: z.string().describe('Name of the book.'),
  invented: z.boolean().describe('Whether the shop is made up.'),
  date: z
    .string()
    .describe('Of the newest entry that it rests on, YYYY-MM-DD; empty where no entry has one.'),
  seed: z.number().nonnegative().describe('Seed of all draws.'),
  from: z
    .strictObject({
      cars: count.describe('Cars of which something was seen.'),
      unmarkedRuns: count.describe('Runs after which nothing had touched.'),
      marks: count.describe('Marks that were found.'),
      sha256: z.string().describe('Of every file that was read, in the order of their names.'),
    })
    .describe('What it rests on.'),
  sampling: samplingSchema.describe('How the cars that agree with all that was seen were found.'),
  tyres: z
    .array(
      z.strictObject({
        tyre: z.string().describe("Row of the shop's catalogue."),
        construction,
        tyres: count.describe('Tyres of that row that it rests on.'),
        inputs: z
          .array(movedPrior)
          .describe('What moved, input by input; none where it is not to be believed.'),
      }),
    )
    .describe("What is believed of one more tyre of a catalogue's row."),
  constructions: z
    .array(
      z.strictObject({
        construction,
        models: count.describe('Rows that it rests on.'),
        inputs: z.array(movedPrior).describe('What moved, input by input.'),
      }),
    )
    .describe('The same of a row that the book has never seen, by how it is built.'),
  shop: z
    .strictObject(common)
    .optional()
    .describe("What the shop's cars have in common apart from their tyres; left out where nothing moved."),
  builders: z
    .array(
      z.strictObject({
        builder: z.string().describe('As the book calls whoever sets its tubs out.'),
        ...common,
      }),
    )
    .optional()
    .describe(
      'How tubs of one builder are set out, for a case that names the same; left out where nothing moved.',
    ),
  tapes: z
    .array(
      z.strictObject({
        tape: z.string().describe('As the book calls it.'),
        cars: count.describe('Cars that it rests on.'),
        readsTooMuch: z
          .string()
          .describe('Median and the range that holds nine in ten; negative: too little.'),
      }),
    )
    .optional()
    .describe(
      'What a tape of the shop reads too much. It is told and enters no case: a case holds what is true of a car and not how it was read. Readings made with it count for it in the book.',
    ),
});

/** What a shop's cars taught of tyres, of its cars and of how their tubs are set out, for cars that are not in its book. */
export type ShopPriors = z.output<typeof priorsSchema>;
export type MovedPrior = z.output<typeof movedPrior>;
export type CommonPrior = z.output<typeof commonInput>;

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

const noShares = (place: string): { problem: string } => ({
  problem: `${place}.inputs: some "together" are no shares of the inputs listed before`,
});

/** A shop's priors from a file's text, or why it is none. */
export function readShopPriors(text: string): ShopPriors | { problem: string } {
  const read = readSealed(FORMAT, text);
  if ('problem' in read) return read;
  for (const part of ['tyres', 'constructions'] as const) {
    const wrong = read[part].findIndex(({ inputs }) => inputs.some((input, i) => !areShares(input, i)));
    if (wrong >= 0) return noShares(`${part}.${wrong}`);
  }
  for (const common of [read.shop, ...(read.builders ?? [])]) {
    if (common?.inputs.some((input, i) => !areShares(input, i))) return noShares('shop or builders');
  }
  return read;
}

/** JSON Schema (draft 2020-12) of a file of a shop's priors, its digest with it. */
export function shopPriorsJsonSchema(): Record<string, unknown> {
  const { $schema, ...form } = z.toJSONSchema(priorsSchema.extend({ digest: sealDigest }), { io: 'input' });
  return {
    $schema,
    title: 'Shop’s priors',
    description: 'What the cars of a shop\'s book taught; a case names it in its field "book".',
    ...form,
  };
}
