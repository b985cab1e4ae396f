import { NUMBER, type QuantitySpec, readQuantity } from './quantity.ts';

const INCH = 0.0254;
const BARE = new RegExp(`^${NUMBER}$`);

/** A length as typed behind an option, m, or why it is none. */
export type TypedLength = { ok: true; value: number } | { ok: false; reason: string };

/**
 * Reads a length of a command line by the rules of a case file; without a unit it is in inches, as on a tape.
 * @param label  what it is, for the message
 * @param least,most  allowed range, in
 */
export function typedLength(words: string, label: string, least: number, most: number): TypedLength {
  const text = words.trim();
  const spec: QuantitySpec = { label, kind: 'length', min: least * INCH, max: most * INCH, unit: 'in' };
  const read = readQuantity(BARE.test(text) ? `${text} in` : text, spec);
  if (read.ok) return read;
  const { reason, hint } = read.problem;
  return { ok: false, reason: `${reason}${hint === undefined ? '' : `. ${hint}`}` };
}
