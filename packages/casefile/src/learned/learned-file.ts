import { parse, stringify } from 'yaml';
import { z } from 'zod';
import { beyondPlain } from '../text/plain-yaml.ts';

/** Version of the file's layout; a reader refuses another. */
export const LEARNED_VERSION = 1;

const spread = z.number().positive();

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
  /** In standard deviations of the law it started from. */
  middle: z.number(),
  spreadBelow: spread,
  spreadAbove: spread,
  /** How it hangs together with the inputs listed before it, in their order; its own share last. */
  together: z.array(z.number()).min(1),
});

const learnedSchema = z.strictObject({
  format: z.literal('tubgap learned'),
  version: z.literal(LEARNED_VERSION),
  caution: z.string(),
  madeBy: z.string(),
  case: z.string(),
  invented: z.boolean(),
  seed: z.number(),
  evidence: z.array(
    z.strictObject({
      file: z.string(),
      kind: z.string(),
      sha256: z.string(),
      rows: z.number().int().nonnegative(),
      leftOut: z.number().int().nonnegative(),
      dates: z.array(z.string()),
    }),
  ),
  sampling: z.strictObject({
    method: z.string(),
    chains: z.number(),
    draws: z.number(),
    worstRHat: z.number(),
    leastEffectiveDraws: z.number(),
    widened: z.number(),
  }),
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

const HEAD = `# What measurements of this car taught. Written by the program; a case names it in its field "learned".
# Change nothing by hand: learn again from the measurements instead.
`;

/** A learned file as text: the same content gives the same bytes. */
export const learnedText = (learned: LearnedFile): string =>
  HEAD + stringify(learnedSchema.parse(learned), { lineWidth: 110, flowCollectionPadding: false });

/** A learned file from its text, or why it is none. */
export function readLearned(text: string): LearnedFile | { problem: string } {
  const beyond = beyondPlain(text);
  if (beyond !== undefined) return { problem: `it is not as the program wrote it: ${beyond.problem.reason}` };
  try {
    return checkLearned(parse(text, { maxAliasCount: 0 }));
  } catch (error) {
    return { problem: `it is not sound YAML: ${(error as Error).message.split('\n')[0]}` };
  }
}

/** What a learned file, or a case with one in it, holds as plain values; or why that is none. */
export function checkLearned(raw: unknown): LearnedFile | { problem: string } {
  const format = (raw as { format?: unknown } | null)?.format;
  if (format !== 'tubgap learned') return { problem: 'it is no learned file' };
  const version = (raw as { version?: unknown }).version;
  if (version !== LEARNED_VERSION) {
    return { problem: `it has layout ${String(version)}, this program reads layout ${LEARNED_VERSION}` };
  }
  const read = learnedSchema.safeParse(raw);
  if (read.success) return read.data;
  const first = read.error.issues[0]!;
  return { problem: `${first.path.join('.')}: ${first.message}; it was changed by hand` };
}
