import { createHash } from 'node:crypto';

/** The line of a sealed file that holds the digest of everything else in it. */
const SEAL = /^\{\n "digest": "([0-9a-f]{64})",\n/;

const digestOf = (text: string): string => createHash('sha256').update(text).digest('hex');

/** A value as JSON text that shows any later change: its first field is the digest of the rest of the text. */
export function sealedText(value: object): string {
  const text = `${JSON.stringify(value, null, 1)}\n`;
  return text.replace('{\n', `{\n "digest": "${digestOf(text)}",\n`);
}

/** What is wrong with a file that should be sealed: no digest, or another text than was written. */
export type SealFault = 'unsealed' | 'changed';

/** The value in a sealed text, or what is wrong. @throws SyntaxError when it is no JSON */
export function openSealed(text: string): { value: unknown } | { value: unknown; fault: SealFault } {
  const value: unknown = JSON.parse(text);
  const [head, digest] = SEAL.exec(text) ?? [];
  if (head === undefined) return { value, fault: 'unsealed' };
  const own = `{\n${text.slice(head.length)}`;
  if (digestOf(own) !== digest) return { value, fault: 'changed' };
  const { digest: _, ...rest } = value as { digest: string };
  return { value: rest };
}
