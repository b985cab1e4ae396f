import { parse, stringify } from 'yaml';
import { z } from 'zod';
import { beyondPlain } from '../text/plain-yaml.ts';
import { textDigest } from './text-digest.ts';

/** A file that the program writes and nobody changes by hand: its format and version, and what stands in it. */
export interface SealedFormat<Schema extends z.ZodType> {
  format: string;
  /** A reader refuses another. */
  version: number;
  /** What such a file is called where one is refused: 'learned file'. */
  called: string;
  /** Remark above its first line. */
  head: string;
  schema: Schema;
}

/** The last field of such a file. */
export const sealDigest = z
  .string()
  .regex(/^[0-9a-f]{16}$/)
  .describe('FNV-1a of all other values: a later change shows.');

/** Of the values alone: a case may hold them itself, written otherwise. */
const valueDigest = (value: unknown): string => textDigest(JSON.stringify(value));

/** A value as such a file's text, its digest last: the same content gives the same bytes. */
export function sealedYaml<Schema extends z.ZodType<object>>(
  { head, schema }: SealedFormat<Schema>,
  value: z.output<Schema>,
): string {
  const sound = schema.parse(value);
  const sealed = { ...sound, digest: valueDigest(sound) };
  return head + stringify(sealed, { lineWidth: 110, flowCollectionPadding: false });
}

/** What such a file holds as plain values; or why that is none. */
export function checkSealed<Schema extends z.ZodType<object>>(
  { format, version, called, schema }: SealedFormat<Schema>,
  raw: unknown,
): z.output<Schema> | { problem: string } {
  const own = raw as { format?: unknown; version?: unknown } | null;
  if (own?.format !== format) return { problem: `it is no ${called}` };
  if (own.version !== version) {
    return { problem: `it has layout ${String(own.version)}, this program reads layout ${version}` };
  }
  const { digest, ...rest } = raw as { digest?: unknown };
  const read = schema.safeParse(rest);
  if (!read.success) {
    const first = read.error.issues[0]!;
    return { problem: `${first.path.join('.')}: ${first.message}; it was changed by hand` };
  }
  if (digest !== valueDigest(read.data)) {
    return { problem: 'it does not match its own digest: something in it was changed after it was written' };
  }
  return read.data;
}

/** Such a file from its text, or why it is none. */
export function readSealed<Schema extends z.ZodType<object>>(
  format: SealedFormat<Schema>,
  text: string,
): z.output<Schema> | { problem: string } {
  const beyond = beyondPlain(text);
  if (beyond !== undefined) return { problem: `it is not as the program wrote it: ${beyond.problem.reason}` };
  let raw: unknown;
  try {
    raw = parse(text, { maxAliasCount: 0 });
  } catch (error) {
    return { problem: `it is not sound YAML: ${(error as Error).message.split('\n')[0]}` };
  }
  return checkSealed(format, raw);
}
