import { z } from 'zod';
import { checkSealed, readSealed, type SealedFormat, sealedYaml } from './sealed-yaml.ts';

/** Version of the file's layout; a reader refuses another. 2: a digest of all else, and ranges. */
export const LEARNED_VERSION = 2;

/** Standard deviations of the law that was started from: what is learned further away is refused as at odds with it. */
const FURTHEST = 8;
const spread = z.number().positive().max(FURTHEST);
const count = z.number().int().nonnegative();

/** How a law moved, in short; in standard deviations of the law it started from. */
export const movedFields = {
  middle: z.number().min(-FURTHEST).max(FURTHEST),
  spreadBelow: spread,
  spreadAbove: spread,
  /** How it hangs together with the inputs listed before it, in their order; its own share last. */
  together: z.array(z.number().min(-1).max(1)).min(1),
};

/** How well the chains agreed that it was taken from. */
export const samplingSchema = z.strictObject({
  method: z.string(),
  chains: count,
  draws: count,
  worstRHat: z.number().nonnegative(),
  leastEffectiveDraws: z.number().nonnegative(),
  widened: z.number().positive(),
});

const learnedInput = z.strictObject({
  /** The tyre that it belongs to; left out for an input of the car. */
  tyre: z.string().optional(),
  /** Name among the core's inputs. */
  input: z.string(),
  label: z.string(),
  /** The laws that it started from, by `exactLawWords`: the car's, and one for each tyre whose class has its own. */
  startedFrom: z.array(z.strictObject({ class: z.string().optional(), law: z.string() })).min(1),
  /** In the shop's units, median and the range that holds nine in ten. */
  before: z.string(),
  after: z.string(),
  ...movedFields,
});

const learnedSchema = z.strictObject({
  format: z.literal('tubgap learned'),
  version: z.literal(LEARNED_VERSION),
  caution: z.string(),
  madeBy: z.string(),
  case: z.string(),
  invented: z.boolean(),
  seed: z.number().nonnegative(),
  evidence: z.array(
    z.strictObject({
      file: z.string(),
      kind: z.string(),
      sha256: z.string(),
      rows: count,
      leftOut: count,
      dates: z.array(z.string()),
    }),
  ),
  sampling: samplingSchema,
  tyres: z.array(
    z.strictObject({
      name: z.string(),
      construction: z.string(),
      condition: z.string(),
      referencePressure: z.string(),
      deflection: z.string(),
      deflectionLoad: z.string(),
    }),
  ),
  inputs: z.array(learnedInput),
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
