import { z } from 'zod';
import { checkSealed, readSealed, type SealedFormat, sealDigest, sealedYaml } from './sealed-yaml.ts';

/** Version of the file's layout; a reader refuses another. 2: a digest of all else, and ranges. */
export const LEARNED_VERSION = 2;

/** Standard deviations of the law that was started from: what is learned further away is refused as at odds with it. */
const FURTHEST = 8;
const spread = z.number().positive().max(FURTHEST);
const count = z.number().int().nonnegative();

/** How a law moved, in short; in standard deviations of the law it started from. */
export const movedFields = {
  middle: z
    .number()
    .min(-FURTHEST)
    .max(FURTHEST)
    .describe('Median, in standard deviations of the law it started from.'),
  spreadBelow: spread.describe('Spread below the middle, in standard deviations of the law it started from.'),
  spreadAbove: spread.describe('Spread above the middle, in standard deviations of the law it started from.'),
  together: z
    .array(z.number().min(-1).max(1))
    .min(1)
    .describe('How it hangs together with the inputs listed before it, in their order; its own share last.'),
};

/** How well the chains agreed that it was taken from. */
export const samplingSchema = z.strictObject({
  method: z.string().describe('Name of the sampler.'),
  chains: count.describe('Chains that ran.'),
  draws: count.describe('Draws kept in all.'),
  worstRHat: z
    .number()
    .nonnegative()
    .describe('Worst potential scale reduction of an input: near 1 where the chains agree.'),
  leastEffectiveDraws: z.number().nonnegative().describe('Fewest effective draws of an input.'),
  widened: z
    .number()
    .positive()
    .describe(
      'Factor by which the spreads were widened, so that no quantile of the height comes out too low.',
    ),
});

const learnedInput = z.strictObject({
  tyre: z.string().optional().describe('The tyre that it belongs to; left out for an input of the car.'),
  input: z.string().describe("Name among the core's inputs."),
  label: z.string().describe('What the input is.'),
  startedFrom: z
    .array(
      z.strictObject({
        class: z
          .string()
          .optional()
          .describe("Tyre whose class has a law of its own; left out for the car's."),
        law: z.string().describe('The law, its numbers in SI.'),
      }),
    )
    .min(1)
    .describe(
      "The laws that it started from, by `exactLawWords`: the car's, and one for each tyre whose class has its own.",
    ),
  before: z.string().describe('Median, and the range that holds nine in ten, before.'),
  after: z.string().describe('Median, and the range that holds nine in ten, after.'),
  ...movedFields,
});

const learnedSchema = z.strictObject({
  format: z.literal('tubgap learned').describe('Marks the file as one of what was learned.'),
  version: z.literal(LEARNED_VERSION).describe('Layout of the file; a reader refuses another.'),
  caution: z.string().describe('What a reader must know to use it rightly.'),
  madeBy: z.string().describe('Program and version that wrote it.'),
  case: z.string().describe('Name of the case that it was learned of.'),
  invented: z.boolean().describe('Whether the car is made up.'),
  seed: z.number().nonnegative().describe('Seed of all draws.'),
  evidence: z
    .array(
      z.strictObject({
        file: z.string().describe('Name of the file.'),
        kind: z.string().describe('Kind of measurement.'),
        sha256: z.string().describe("Digest of the file's text."),
        rows: count.describe('Rows that were used.'),
        leftOut: count.describe('Rows that were not.'),
        dates: z.array(z.string()).describe('Days of measuring that stand in it.'),
      }),
    )
    .describe('The measurements that it comes from.'),
  sampling: samplingSchema.describe('How the cars that agree with the measurements were found.'),
  tyres: z
    .array(
      z.strictObject({
        name: z.string().describe('Name of the tyre.'),
        construction: z.string().describe('How it is built.'),
        condition: z.string().describe('State of the tyre that was measured.'),
        referencePressure: z.string().describe('Of free radius and deflection.'),
        deflection: z.string().describe('Drop of the axle under the load.'),
        deflectionLoad: z.string().describe('The load.'),
      }),
    )
    .describe('Tyres as they were measured; with others it would mean something else.'),
  inputs: z.array(learnedInput).describe('What was learned, input by input.'),
});

/** What was learned of a car and its tyres, and where it comes from. */
export type LearnedFile = z.output<typeof learnedSchema>;
export type LearnedInput = z.output<typeof learnedInput>;

const FORMAT: SealedFormat<typeof learnedSchema> = {
  format: 'tubgap learned',
  version: LEARNED_VERSION,
  called: 'learned file',
  head: `# What measurements of this car taught. Written by the program; a case names it in its field "learned".
# Change nothing by hand: learn again from the measurements instead.
`,
  schema: learnedSchema,
};

/** Shares of inputs that hang together: as many as were listed, their squares together 1. */
export const areShares = ({ together }: { together: readonly number[] }, index: number): boolean =>
  together.length === index + 1 && Math.abs(Math.hypot(...together) - 1) < 1e-4;

/** A learned file as text: the same content gives the same bytes. */
export const learnedText = (learned: LearnedFile): string => sealedYaml(FORMAT, learned);

const withShares = (read: LearnedFile | { problem: string }): LearnedFile | { problem: string } => {
  if ('problem' in read) return read;
  const wrong = read.inputs.findIndex((input, i) => !areShares(input, i));
  if (wrong < 0) return read;
  return { problem: `inputs.${wrong}.together: these are no shares of the inputs listed before it` };
};

/** A learned file from its text, or why it is none. */
export const readLearned = (text: string): LearnedFile | { problem: string } =>
  withShares(readSealed(FORMAT, text));

/** What a learned file, or a case with one in it, holds as plain values; or why that is none. */
export const checkLearned = (raw: unknown): LearnedFile | { problem: string } =>
  withShares(checkSealed(FORMAT, raw));

/** JSON Schema (draft 2020-12) of a learned file, its digest with it. */
export function learnedJsonSchema(): Record<string, unknown> {
  const { $schema, ...form } = z.toJSONSchema(learnedSchema.extend({ digest: sealDigest }), { io: 'input' });
  return {
    $schema,
    title: 'Learned file',
    description: 'What measurements taught of a car and its tyres; a case names it in its field "learned".',
    ...form,
  };
}
