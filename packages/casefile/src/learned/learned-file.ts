import { parse, stringify } from 'yaml';
import { z } from 'zod';
import { beyondPlain } from '../text/plain-yaml.ts';
import { textDigest } from './text-digest.ts';

/** Version of the file's layout; a reader refuses another. 2: a digest of all else, and ranges. */
export const LEARNED_VERSION = 2;

/** Standard deviations of the law that was started from: what is learned further away is refused as at odds with it. */
const FURTHEST = 8;
const spread = z.number().positive().max(FURTHEST);
const count = z.number().int().nonnegative();

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
  middle: z.number().min(-FURTHEST).max(FURTHEST),
  spreadBelow: spread,
  spreadAbove: spread,
  /** How it hangs together with the inputs listed before it, in their order; its own share last. */
  together: z.array(z.number().min(-1).max(1)).min(1),
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
  sampling: z.strictObject({
    method: z.string(),
    chains: count,
    draws: count,
    worstRHat: z.number().nonnegative(),
    leastEffectiveDraws: z.number().nonnegative(),
    widened: z.number().positive(),
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

/** Of the values alone: a case may hold them itself, written otherwise. */
const valueDigest = (learned: LearnedFile): string => textDigest(JSON.stringify(learned));

/** Shares of inputs that hang together: as many as were listed, their squares together 1. */
const areShares = ({ together }: LearnedInput, index: number): boolean =>
  together.length === index + 1 && Math.abs(Math.hypot(...together) - 1) < 1e-4;

/** A learned file as text: the same content gives the same bytes. */
export function learnedText(learned: LearnedFile): string {
  const sound = learnedSchema.parse(learned);
  const sealed = { ...sound, digest: valueDigest(sound) };
  return HEAD + stringify(sealed, { lineWidth: 110, flowCollectionPadding: false });
}

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
  const { digest, ...rest } = raw as { digest?: unknown };
  const read = learnedSchema.safeParse(rest);
  if (!read.success) {
    const first = read.error.issues[0]!;
    return { problem: `${first.path.join('.')}: ${first.message}; it was changed by hand` };
  }
  if (digest !== valueDigest(read.data)) {
    return { problem: 'it does not match its own digest: something in it was changed after it was written' };
  }
  const wrong = read.data.inputs.findIndex((input, i) => !areShares(input, i));
  if (wrong < 0) return read.data;
  return { problem: `inputs.${wrong}.together: these are no shares of the inputs listed before it` };
}
